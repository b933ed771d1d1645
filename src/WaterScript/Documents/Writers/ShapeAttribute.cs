namespace WaterScript.Documents.Writers;

/// <summary>
/// What the schema says of a value of a document for programs, beyond its type. The test that writes the schemas reads it; the program never does.
/// What is null is left out of a document, so what may be null need not be there, and a flag that may be null is only ever true.
/// </summary>
[AttributeUsage(AttributeTargets.Property | AttributeTargets.Class)]
internal sealed class ShapeAttribute : Attribute
{
    /// <summary>A name as written in the source.</summary>
    public const string Name = "name";

    /// <summary>The name of a rule.</summary>
    public const string Slug = "slug";

    /// <summary>A local date.</summary>
    public const string Date = "date";

    /// <summary>A time of the site's clock, or a date.</summary>
    public const string Clock = "clock";

    /// <summary>Local time with its offset from UTC.</summary>
    public const string Moment = "moment";

    /// <summary>The definition that a value is one of, and of a list each item; of a class, the definition that it is.</summary>
    public string? Of { get; init; }

    /// <summary>The words that there are.</summary>
    public string[]? Words { get; init; }

    /// <summary>The keys that a map may have.</summary>
    public string[]? Keys { get; init; }

    /// <summary>Of a class, the keys of which exactly one is there.</summary>
    public string[]? OneOf { get; init; }

    /// <summary>The least that a number can be.</summary>
    public int Least { get; init; } = int.MinValue;

    /// <summary>The only number that there is; 0 for any.</summary>
    public int Only { get; init; }
}
