namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A property that this block has not got.</summary>
    public static Rule UnknownProperty { get; } = new("unknown-property", Severity.Error, "a property that this block has not got")
    {
        Finds = """
            The block does not know this property. The nearest known one is offered, and the block's own list.
            """,
    };
}
