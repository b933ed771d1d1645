using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>A day of the year of a change.</summary>
/// <param name="Date">Which, in words.</param>
/// <param name="Difference">Water after less water before, in words.</param>
/// <param name="Zones">The same by zone.</param>
/// <param name="Week">The number of the week in which it changes; -1 where it does not.</param>
internal sealed record ChangedDay(string Date, string Difference, string Zones, int Week);

/// <summary>What the script of a change's page draws, as JSON that cannot end the element it stands in.</summary>
internal static class ChangeData
{
    /// <summary>All of it.</summary>
    /// <param name="weeks">The weeks that can be chosen.</param>
    /// <param name="days">The days of the year.</param>
    /// <param name="figures">How amounts are written.</param>
    public static string Of(IReadOnlyList<ChangedWeek> weeks, IReadOnlyList<ChangedDay> days, WaterFigures figures)
    {
        var names = weeks.SelectMany(week => week.Nights).SelectMany(night => night.Lanes).Select(lane => Shapes.Plain(lane.Name)).Distinct().ToList();
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) }))
        {
            json.WriteStartObject();
            json.WriteBoolean("hasSun", weeks.SelectMany(week => week.Clocks).Any(clock => clock.HasSun));
            json.WriteString("unit", figures.Unit.Symbol);
            json.WriteStartArray("zones");
            foreach (var name in names) json.WriteStringValue(name);
            json.WriteEndArray();
            json.WriteStartArray("weeks");
            foreach (var week in weeks) WriteWeek(json, week, names, figures);
            json.WriteEndArray();
            json.WriteStartArray("days");
            foreach (var day in days) WriteDay(json, day);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void WriteDay(Utf8JsonWriter json, ChangedDay day)
    {
        json.WriteStartArray();
        json.WriteStringValue(day.Date);
        json.WriteStringValue(day.Difference);
        json.WriteStringValue(day.Zones);
        json.WriteStartArray();
        if (day.Week >= 0) json.WriteNumberValue(day.Week);
        json.WriteEndArray();
        json.WriteEndArray();
    }

    private static void WriteWeek(Utf8JsonWriter json, ChangedWeek week, List<string> names, WaterFigures figures)
    {
        json.WriteStartArray();
        json.WriteStringValue(week.First.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture));
        json.WriteStartArray();
        foreach (var (night, clock) in week.Nights.Zip(week.Clocks))
        {
            json.WriteStartArray();
            json.WriteStringValue(clock.Title);
            json.WriteStringValue(night.Words);
            json.WriteNumberValue(night.Length);
            json.WriteStartArray();
            foreach (var shift in clock.Shifts) Numbers(json, shift.At, shift.By);
            json.WriteEndArray();
            json.WriteStartArray();
            foreach (var lane in night.Lanes) WriteLane(json, lane, names, figures);
            json.WriteEndArray();
            json.WriteStartArray();
            foreach (var dark in clock.Dark) Numbers(json, dark.From, dark.Until);
            json.WriteEndArray();
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndArray();
    }

    private static void WriteLane(Utf8JsonWriter json, ChangedLane lane, List<string> names, WaterFigures figures)
    {
        var (both, difference) = ChangeWords.Amounts(figures, lane);
        json.WriteStartArray();
        json.WriteNumberValue(names.IndexOf(Shapes.Plain(lane.Name)));
        json.WriteStringValue(both);
        json.WriteStringValue(difference);
        json.WriteStartArray();
        foreach (var (run, every, times) in Rows(lane.Runs)) Numbers(json, run.Old?.From, run.Old?.Until, run.New?.From, run.New?.Until, every, times);
        json.WriteEndArray();
        json.WriteEndArray();
    }

    /// <summary>Runs, those that repeat alike as one.</summary>
    internal static IEnumerable<(ChangedRun First, long Every, int Times)> Rows(ImmutableArray<ChangedRun> runs)
    {
        for (var i = 0; i < runs.Length;)
        {
            var (every, times) = (i + 1 < runs.Length ? runs[i + 1].From - runs[i].From : 0, 1);
            while (every > 0 && i + times < runs.Length && runs[i + times] == runs[i].Later(every * times)) times++;
            yield return (runs[i], times > 1 ? every : 0, times);
            i += times;
        }
    }

    private static void Numbers(Utf8JsonWriter json, params ReadOnlySpan<long?> values)
    {
        json.WriteStartArray();
        foreach (var value in values)
        {
            if (value is { } number) json.WriteNumberValue(number);
            else json.WriteNullValue();
        }

        json.WriteEndArray();
    }
}
