namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>The numbers that the protocol has for kinds of symbols. Each word of the language has one of its own, so that editors show them apart.</summary>
internal static class SymbolKinds
{
    /// <summary>The number for a word that begins a statement.</summary>
    public static int Of(string word) => word switch
    {
        "site" => 3, // a namespace
        "supply" => 11, // an interface
        "controller" => 5, // a class
        "valve" => 23, // a struct
        "pump" or "master" or "injector" => 24, // an event
        "zone" => 13, // a variable
        "group" => 18, // an array
        "scale" or "tariff" or "soil" or "plants" or "climate" or "restriction" => 19, // an object
        "month" => 8, // a field
        "sequence" => 12, // a function
        "cycle" or "repeat" => 25, // an operator
        "schedule" or "extra" => 6, // a method
        "hold" or "closed" => 24, // an event
        _ => 14, // a constant
    };
}
