using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using WaterScript.Documents.Timetables;
using WaterScript.Model;
using WaterScript.Tests.Documents;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using OutputFormat = WaterScript.Documents.Timetables.OutputFormat;

namespace WaterScript.Tests.Player;

/// <summary>Lists of switchings as a device gets them.</summary>
internal static class SwitchingList
{
    private const string Header = "t,after_ms,controller,output,do,polarity,pulse_ms,max_on_s,opening";

    /// <summary>A list with whatever lines a test needs, closed by their true count and hash.</summary>
    public static string Of(long from, long until, params string[] lines)
    {
        var text = string.Concat(lines.Prepend(Header).Select(line => line + "\r\n"));
        return Sealed(text, lines.Length, string.Create(CultureInfo.InvariantCulture, $"{from}"), string.Create(CultureInfo.InvariantCulture, $"{until}"));
    }

    /// <summary>A text closed by the true hash of all of it, whatever stands in it.</summary>
    public static string Sealed(string text, int rows, string from, string until, string rest = ",,,")
    {
        string Closed(string hash) => string.Create(CultureInfo.InvariantCulture, $"{text}end,{rows},{hash},{from},{until},{rest}\r\n");
        return Closed(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Closed("")))));
    }

    /// <summary>A list of rows, closed by their true count and hash.</summary>
    public static string Of(long from, long until, params SwitchingRow[] rows) => Of(from, until, [.. rows.Select(row => row.Line())]);

    /// <summary>The rows of a list.</summary>
    public static List<SwitchingRow> Rows(string list) =>
        [.. CsvReader.Read(list)[1..^1].Select(SwitchingRow.Parse)];

    /// <summary>When a list begins and ends, in Unix seconds.</summary>
    public static (long From, long Until) Bounds(string list)
    {
        var closing = CsvReader.Read(list)[^1];
        return (long.Parse(closing[3], CultureInfo.InvariantCulture), long.Parse(closing[4], CultureInfo.InvariantCulture));
    }

    /// <summary>The list that the compiler writes for a timetable, without where it comes from, which the hash does not cover.</summary>
    public static string Of(Timetable timetable)
    {
        var output = new MemoryStream();
        TimetableOutput.Write(timetable, OutputFormat.Csv, new OutputOptions { Only = TimetableList.Switchings }, output);
        string[] lines = Encoding.UTF8.GetString(output.ToArray()).Split("\r\n");
        lines[^2] = string.Join(',', [.. lines[^2].Split(',')[..5], "", "", "", ""]);
        return string.Join("\r\n", lines);
    }

    /// <summary>The list of a timetable of one controller, put together from its openings and switchings.</summary>
    public static string ByHand(Timetable timetable)
    {
        var site = timetable.Site;
        var wired = WiredOutput.AllOf(site).ToDictionary(output => output.Number);
        var longest = timetable.Openings().GroupBy(opening => opening.Output).ToDictionary(of => of.Key, of => of.Max(opening => opening.Seconds));
        SwitchingRow Row(Switching switching) => new(
            switching.Milliseconds,
            switching.Output,
            switching.IsOpen ? "open" : "close",
            !wired[switching.Output].IsLatching ? "" : switching.IsOpen ? "positive" : "negative",
            wired[switching.Output].Pulse?.TotalMilliseconds.ToString(CultureInfo.InvariantCulture) ?? "",
            (((longest[switching.Output] + 59) / 60) * 60) + 60,
            switching.Opening.ToString(CultureInfo.InvariantCulture));
        long Midnight(LocalDate date) => date.AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        return Of(
            Midnight(timetable.Horizon.From),
            Midnight(timetable.Horizon.Until),
            [.. timetable.Switchings().Select(switching => Row(switching).Line(site.Controllers[0].Name))]);
    }
}
