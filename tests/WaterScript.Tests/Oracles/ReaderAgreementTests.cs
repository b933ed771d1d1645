using System.Globalization;
using NodaTime;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Rfc5545;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>Whoever reads a calendar that the compiler writes finds the passes of the timetable: their starts and ends, none missing and none extra.</summary>
/// <remarks>
/// ical.js, icalendar with dateutil, and libical read zones by the VTIMEZONE in the file, so that the age of their own zone data plays no part.
/// The others go by the system's data or their own; they are asked only about zones in which these agree with ours over the time in question.
/// </remarks>
public sealed class ReaderAgreementTests : Workshop
{
    private static readonly int RandomSites = Samples.Of(80);

    /// <summary>Sites of some schedules each, for the readers that are quick; those of many passes are left out.</summary>
    private const int FirstOfMany = 1_000, MostPassesOfMany = 150;

    private static readonly int ManySites = Samples.Of(700);

    /// <summary>Of a file; the time that ical.js needs grows with the square of the length.</summary>
    private const int MostBytes = 120_000;

    private const int ShownDifferences = 6;
    private const string StandardInput = "-";

    private static readonly Lazy<List<Emitted>> Examples =
        new(() => EmitAll(ExampleTests.Roots.Cast<object[]>().Select(row => (string)row[0]).SelectMany(path =>
    {
        var site = Example.Read(path).Site!;
        return InForms(Enum.GetValues<Form>(), path, Path.Combine(Repository.Root, path), "", Timetable.Of(site, Horizon.YearFrom(site.Effective)));
    })));

    /// <summary>
    /// Passes of these sites have one step each, so that steps would say the same; what stands alone in UTC is read alike whatever the clocks do.
    /// </summary>
    private static readonly Form[] FormsByTheClock = [Form.Passes, Form.Days];

    private static readonly Lazy<List<Emitted>> ClockChanges = new(() => EmitAll(ClockChangeSites.All.SelectMany(site =>
        InForms(FormsByTheClock, site.Name, StandardInput, site.Text,
            Timetable.Of(Sites.Read(site.Text), new Horizon(ClockChangeSites.From, ClockChangeSites.Until))))));

    private static readonly Lazy<List<Emitted>> RandomOnes = new(() => EmitAll(Enumerable.Range(0, RandomSites).SelectMany(number =>
    {
        var source = RandomSource.Of(number, hasMore: true);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return [];
        var days = number % 5 == 0 ? 400 : 40;
        return new[] { new Case($"random site {number}", StandardInput, source.Text, Timetable.Of(site, Horizon.DaysFrom(source.From, days)),
            (Form)(number % 4)) };
    })));

    private static readonly Lazy<List<Emitted>> ManyOnes = new(() =>
    [
        .. Enumerable.Range(FirstOfMany, ManySites).SelectMany(number =>
        {
            var source = RandomSource.Of(number, hasMore: true);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) return [];
            var timetable = Timetable.Of(site, Horizon.DaysFrom(source.From, 60));
            return timetable.Passes().Skip(MostPassesOfMany).Any() ? []
                : Emit(new Case($"random site {number}", StandardInput, source.Text, timetable, Form.Passes), int.MaxValue);
        }),
    ]);

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("sabre-vobject")]
    [Reader("kcalendarcore")]
    public void A_quick_reader_finds_the_passes_of_thousands_of_schedules(string reader) => Agree(reader, ManyOnes.Value);

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_finds_the_passes_of_every_example(string reader) => Agree(reader, Examples.Value);

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_finds_the_passes_around_clock_changes(string reader) => Agree(reader, ClockChanges.Value);

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_finds_the_passes_of_random_sites(string reader) => Agree(reader, RandomOnes.Value);

    private static IEnumerable<Case> InForms(Form[] forms, string name, string file, string text, Timetable timetable) =>
        forms.Select(form => new Case(name, file, text, timetable, form));

    private static List<Emitted> EmitAll(IEnumerable<Case> cases) => [.. cases.SelectMany(one => Emit(one, MostBytes))];

    /// <summary>The calendar of a case that has any event; where it is too long, those of the week around each clock change.</summary>
    private static IEnumerable<Emitted> Emit(Case one, int mostBytes)
    {
        var expected = EmittedCalendar.Expected(one.Timetable, one.Form);
        if (expected.Length == 0) return [];
        var bytes = EmittedCalendar.Of(one.File, one.Text, one.Timetable.Horizon, one.Form);
        if (bytes.Length > mostBytes) return Changes(one.Timetable)
            .SelectMany(day => Emit(one with { Timetable = Timetable.Of(one.Timetable.Site, Horizon.DaysFrom(day.PlusDays(-3), 7)) }, int.MaxValue));
        StrictCalendar.Read(bytes);
        return [new Emitted(one, bytes, expected)];
    }

    private void Agree(string name, List<Emitted> emitted)
    {
        var reader = Reader.Named(name);
        var asked = emitted.Where(one => reader.MayJudge(one.Case.Timetable)).ToList();

        var answers = reader.Expand([.. asked.Select(Ask)]);

        var complaints = asked.Zip(answers).Select(pair => Complaint(pair.First, pair.Second)).OfType<string>().ToList();
        Assert.True(complaints.Count == 0,
            string.Create(CultureInfo.InvariantCulture,
            $"{name} disagrees on {complaints.Count} of {asked.Count} files:\n{string.Join('\n', complaints.Take(20))}"));
        Assert.NotEmpty(asked);
    }

    /// <summary>The dates on which the clocks change, and the first date.</summary>
    private static IEnumerable<LocalDate> Changes(Timetable timetable)
    {
        var (site, horizon) = (timetable.Site, timetable.Horizon);
        var span = new Interval(site.TimeZone.AtStartOfDay(horizon.From).ToInstant(), site.TimeZone.AtStartOfDay(horizon.Until).ToInstant());
        return site.TimeZone.GetZoneIntervals(span)
            .Select(interval => interval.HasStart && interval.Start > span.Start ? interval.IsoLocalStart.Date : horizon.From.PlusDays(3));
    }

    private Reader.Question Ask(Emitted emitted, int index)
    {
        var (zone, horizon) = (emitted.Case.Timetable.Site.TimeZone, emitted.Case.Timetable.Horizon);
        return new Reader.Question(
            Write(string.Create(CultureInfo.InvariantCulture, $"{index}.ics"), emitted.Bytes),
            zone.AtStartOfDay(horizon.From).ToInstant().ToString(),
            zone.AtStartOfDay(horizon.Until).ToInstant().ToString());
    }

    private static string? Complaint(Emitted emitted, Reader.Answer answer)
    {
        var (one, _, expected) = emitted;
        if (answer.IsRefused) return $"{one}: refused";
        var found = answer.Occurrences.Select(line => line[..line.LastIndexOf(' ')]).ToArray();
        if (expected.AsSpan().SequenceEqual(found)) return null;
        return $"{one}: missing {Shown(expected, found)}; surplus {Shown(found, expected)}";
    }

    /// <summary>The first of those that are in one list more often than in the other.</summary>
    private static string Shown(string[] those, string[] others)
    {
        var counts = others.CountBy(line => line).ToDictionary();
        List<string> left = [.. those.CountBy(line => line).Where(line => line.Value > counts.GetValueOrDefault(line.Key)).Select(line => line.Key)];
        return string.Create(CultureInfo.InvariantCulture, $"{left.Count} ({string.Join(", ", left.Take(ShownDifferences))})");
    }

    private sealed record Case(string Name, string File, string Text, Timetable Timetable, Form Form)
    {
        public override string ToString() => $"{Name}, {Form} from {Timetable.Horizon.From:uuuu-MM-dd} until {Timetable.Horizon.Until:uuuu-MM-dd}";
    }

    private sealed record Emitted(Case Case, byte[] Bytes, string[] Expected);
}
