using System.Globalization;

namespace WaterScript.Tests.Player;

/// <summary>A row of a list of switchings.</summary>
/// <param name="At">When, in milliseconds of Unix time.</param>
/// <param name="Output">Number of the output.</param>
/// <param name="Do"><c>open</c> or <c>close</c>.</param>
/// <param name="Polarity">Of the pulse; empty where the valve is held open by power.</param>
/// <param name="PulseMs">Length of the pulse; empty where it is not stated.</param>
/// <param name="MostOn">Seconds after which the device closes the output by itself.</param>
/// <param name="Opening">Number of the opening it belongs to.</param>
internal sealed record SwitchingRow(long At, int Output, string Do, string Polarity, string PulseMs, long MostOn, string Opening)
{
    private const string ControllerName = "bench";

    /// <summary>A row that opens or closes a valve held open by power.</summary>
    public static SwitchingRow Of(long second, int output, string what, long mostOn = 600, string opening = "1") =>
        new(second * 1000, output, what, "", "", mostOn, opening);

    public static SwitchingRow Parse(string[] fields) =>
        new(Number(fields[0]) * 1000 + Number(fields[1]), (int)Number(fields[3]), fields[4], fields[5], fields[6], Number(fields[7]), fields[8]);

    /// <summary>The row as a line of a list.</summary>
    public string Line(string controller = ControllerName) =>
        string.Create(CultureInfo.InvariantCulture, $"{At / 1000},{At % 1000},{controller},{Output},{Do},{Polarity},{PulseMs},{MostOn},{Opening}");

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}
