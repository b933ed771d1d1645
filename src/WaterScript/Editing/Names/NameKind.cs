namespace WaterScript.Editing.Names;

/// <summary>What a name is of. Names of one kind are different from one another.</summary>
internal enum NameKind
{
    /// <summary>The site.</summary>
    Site,

    /// <summary>A supply.</summary>
    Supply,

    /// <summary>A tariff.</summary>
    Tariff,

    /// <summary>A controller.</summary>
    Controller,

    /// <summary>A kind of valve.</summary>
    Valve,

    /// <summary>A zone, a group, a pump, a master valve or an injector: they stand in the same places.</summary>
    Zone,

    /// <summary>A soil.</summary>
    Soil,

    /// <summary>Plants.</summary>
    Plants,

    /// <summary>A scale.</summary>
    Scale,

    /// <summary>A restriction.</summary>
    Restriction,

    /// <summary>A sequence.</summary>
    Sequence,

    /// <summary>A schedule.</summary>
    Schedule,

    /// <summary>A quantity or a date.</summary>
    Let,

    /// <summary>A rule, which no file declares.</summary>
    Rule,
}
