using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using WaterScript.Documents.ICalendar;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Rfc5545;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;
using Files = WaterScript.Tests.Documents.ICalendar.Calendars;

namespace WaterScript.Tests.Oracles;

/// <summary>Random sites in 25 time zones over three years: each form of calendar is read alike by every reader.</summary>
public sealed class ZoneAgreementTests : Workshop
{
    /// <summary>Of more passes the slow readers would make a long evening.</summary>
    private const int MostPasses = 500;

    private static readonly int Sites = Samples.Of(500);

    private static readonly string[] TimeZones =
    [
        "Europe/Lisbon", "Europe/London", "Europe/Berlin", "Europe/Dublin", "Europe/Istanbul", "America/New_York", "America/Los_Angeles", "America/Santiago",
        "America/Asuncion", "America/Sao_Paulo", "America/St_Johns", "America/Havana", "Australia/Sydney", "Australia/Lord_Howe", "Pacific/Auckland",
        "Pacific/Chatham", "Asia/Kathmandu", "Asia/Amman", "Asia/Tokyo", "Asia/Beirut", "Asia/Jerusalem", "Africa/Cairo", "Africa/Casablanca",
        "Antarctica/Troll", "Atlantic/Azores",
    ];

    private static readonly CalendarOptions[] Forms =
    [
        Files.Plain with { Unit = EventUnit.Pass },
        Files.Plain with { Unit = EventUnit.Pass, IsFlat = true },
        Files.Plain with { Unit = EventUnit.Pass, IsSimple = true },
        Files.Plain with { Unit = EventUnit.Day, IsOpenEnded = true },
    ];

    private static readonly Lazy<List<Emitted>> All = new(() => [.. Enumerable.Range(0, Sites).SelectMany(Emit)]);

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_finds_the_passes_of_three_years(string name)
    {
        var reader = Reader.Named(name);
        var asked = All.Value.Where(one => reader.MayJudge(one.Timetable)).ToList();

        var answers = reader.Expand([.. asked.Select(Ask)]);

        var complaints = asked.Zip(answers).Select(pair => Complaint(pair.First, pair.Second)).OfType<string>().ToList();
        Assert.True(complaints.Count == 0,
            string.Create(CultureInfo.InvariantCulture, $"{name} disagrees on {complaints.Count} of {asked.Count}:\n{string.Join('\n', complaints.Take(8))}"));
        Assert.NotEmpty(asked);
    }

    private static IEnumerable<Emitted> Emit(int number)
    {
        var source = RandomSource.Of(number);
        var text = Regex.Replace(source.Text, "timezone [A-Za-z_/]+", $"timezone {TimeZones[number % TimeZones.Length]}");
        if (RandomRunsTests.Read(text, out _) is not { } site) yield break;
        var timetable = Timetable.Of(site, new Horizon(source.From, source.From.PlusYears(3)));
        if (timetable.Passes().Skip(MostPasses).Any() || !timetable.Runs().Any()) yield break;
        foreach (var form in Forms)
        {
            var bytes = Encoding.UTF8.GetBytes(Files.Write(timetable, form));
            StrictCalendar.Read(bytes);
            var expected = form.Unit == EventUnit.Day ? ExpectedEvents.Days(timetable) : ExpectedEvents.Passes(timetable);
            yield return new Emitted(string.Create(CultureInfo.InvariantCulture, $"site {number} {site.TimeZone.Id} {form}"), text, timetable, bytes, expected);
        }
    }

    private Reader.Question Ask(Emitted emitted, int index)
    {
        var (zone, horizon) = (emitted.Timetable.Site.TimeZone, emitted.Timetable.Horizon);
        return new Reader.Question(
            Write(string.Create(CultureInfo.InvariantCulture, $"{index}.ics"), emitted.Bytes),
            zone.AtStartOfDay(horizon.From).ToInstant().ToString(),
            zone.AtStartOfDay(horizon.Until).ToInstant().ToString());
    }

    private static string? Complaint(Emitted one, Reader.Answer answer)
    {
        if (answer.IsRefused) return $"{one.Name}: refused";
        var found = answer.Occurrences.Select(line => line[..line.LastIndexOf(' ')]).ToArray();
        return one.Expected.AsSpan().SequenceEqual(found) ? null
            : $"{one.Name}: {one.Expected.Length} expected, {found.Length} found; missing {string.Join(", ", one.Expected.Except(found).Take(4))}; "
                + $"surplus {string.Join(", ", found.Except(one.Expected).Take(4))}\n{one.Text}";
    }

    private sealed record Emitted(string Name, string Text, Timetable Timetable, byte[] Bytes, string[] Expected);
}
