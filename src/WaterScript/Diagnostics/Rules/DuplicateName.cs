namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Two things of one name.</summary>
    public static Rule DuplicateName { get; } = new("duplicate-name", Severity.Error, "two things of one name")
    {
        Finds = """
            Names are unique for each kind; zones, groups, pumps, masters and injectors are one kind, because they stand in the same places.
            """,
    };
}
