namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A decimal comma.</summary>
    public static Rule DecimalComma { get; } = new("decimal-comma", Severity.Error, "a comma inside a number")
    {
        Finds = """
            Numbers have a decimal point, `1.5`, because a comma joins the items of a list. A comma between the digits of one number
            could be meant as a decimal comma or as a thousands mark; the compiler does not guess which.
            """,
    };
}
