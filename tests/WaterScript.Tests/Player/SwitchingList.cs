using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using WaterScript.Tests.Outputs;
using WaterScript.Timetables;

namespace WaterScript.Tests.Player;

/// <summary>Lists of switchings as a device gets them.</summary>
internal static class SwitchingList
{
    private const string Header = "t,after_ms,controller,output,do,polarity,pulse_ms,max_on_s,opening";

    /// <summary>A list with whatever lines a test wants, closed by their true count and hash.</summary>
    public static string Of(long from, long until, params string[] lines)
    {
        var text = string.Concat(lines.Prepend(Header).Select(line => line + "\r\n"));
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
        return string.Create(CultureInfo.InvariantCulture, $"{text}end,{lines.Length},{hash},{from},{until},,,,\r\n");
    }

    /// <summary>A list of rows, closed by their true count and hash.</summary>
    public static string Of(long from, long until, params SwitchingRow[] rows) => Of(from, until, [.. rows.Select(row => row.Line())]);

    /// <summary>The rows of a list.</summary>
    public static List<SwitchingRow> Rows(string list) =>
        [.. CsvReader.Read(list)[1..^1].Select(SwitchingRow.Parse)];

    /// <summary>When a list begins and ends, in Unix seconds.</summary>
    public static (long From, long Until) Horizon(string list)
    {
        var closing = CsvReader.Read(list)[^1];
        return (long.Parse(closing[3], CultureInfo.InvariantCulture), long.Parse(closing[4], CultureInfo.InvariantCulture));
    }

    /// <summary>The list of a timetable.</summary>
    public static string Of(Timetable timetable)
    {
        var openings = timetable.Openings().Where(opening => opening.Output > 0).ToList();
        var most = openings.GroupBy(opening => opening.Output).ToDictionary(of => of.Key, of => ((of.Max(opening => opening.Seconds) + 59) / 60 * 60) + 60);
        SwitchingRow Row(Opening opening, string what) => SwitchingRow.Of(what == "open" ? opening.From : opening.To, opening.Output, what, most[opening.Output], $"{opening.Number}");
        var rows = openings.SelectMany(opening => new[] { Row(opening, "open"), Row(opening, "close") }).OrderBy(row => (row.At, row.Do, row.Output));
        var start = timetable.Horizon.From.AtStartOfDayInZone(timetable.Site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var end = timetable.Horizon.Until.AtStartOfDayInZone(timetable.Site.TimeZone).ToInstant().ToUnixTimeSeconds();
        return Of(start, end, [.. rows]);
    }
}
