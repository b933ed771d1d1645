using System.Globalization;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Water;
using WaterScript.Model;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit;

/// <summary>What ran against what was meant, as a report for people.</summary>
internal sealed class AuditText
{
    private readonly AuditReport _report;
    private readonly SiteWords _words;
    private readonly WaterWords _water;
    private readonly IReportLines _lines;

    private AuditText(AuditReport report, IReportLines lines) =>
        (_report, _words, _water, _lines) = (report, new SiteWords(report.Site), new WaterWords(report.Site), lines);

    /// <summary>Writes it.</summary>
    public static void Write(AuditReport report, IReportLines lines)
    {
        ArgumentNullException.ThrowIfNull(report);
        new AuditText(report, lines).Write();
    }

    /// <summary>The word for what became of a watering.</summary>
    internal static string WordOf(AuditClass kind) => kind switch
    {
        AuditClass.ByHand => "manual",
        AuditClass.CloseNotSeen => "close not seen",
        AuditClass.NotKnown => "not known",
        AuditClass.NoWater => "no water",
        AuditClass.TooLittle => "too little water",
        AuditClass.TooMuch => "too much water",
        _ => kind.ToString().ToLowerInvariant(),
    };

    /// <summary>The word for whose list was in the device.</summary>
    internal static string WordOf(ListMatch match) => match switch
    {
        ListMatch.Same => "of this file",
        ListMatch.Other => "another",
        ListMatch.TooLong => "too long to compare",
        _ => "too short to identify",
    };

    private void Write()
    {
        _lines.Heading($"{_report.Site.DisplayName}, {_words.Moment(_report.From)} to {_words.TimeAfter(_report.To, _words.DateAt(_report.From))}, "
            + $"{Phrases.Count(_report.Rows, "row")}: {Verdict()}");
        _lines.Sentence("Done means that the valve was switched, not that water came out.");
        if (_report.InPart is { } part) _lines.Part("Over the limit", [part.Words(_words)]);
        if (_report.Clock is { } clock) _lines.Part("Clock of the log", ClockWords.Of(clock, _words));
        _lines.Part("By schedule and day", Few(_report.Days, Words));
        _lines.Part("Not as meant", Few(_report.NotAsMeant, Words));
        _lines.Part("Water while nothing was open", Few(_report.Leaks, Words));
        _lines.Part("Not known", Few(_report.NotKnown, entry =>
            $"{_words.Moment(entry.From)} {entry.Zone.DisplayName}: {WhyNotKnown(entry)}, {Phrases.Length(entry.Seconds)} planned"));
        _lines.Part("Water by time", _report.Water.Where(water => water.MeantSeconds + water.ActualSeconds > 0).Select(Words));
        if (_report.MeterLitres is { } litres) _lines.Part("Water by the meter", [_water.Say(litres)]);
        _lines.Part("Timetable in the device", _report.HasMoreLists ? _report.Lists.Select(Words).Append("and others") : _report.Lists.Select(Words));
        _lines.Part("Rows passed over", Few(
            new AuditList<BadRow>([.. _report.Bad.Take(AuditReport.MostListed)], _report.BadCount),
            bad => string.Create(CultureInfo.InvariantCulture, $"{bad.Place.File}:{bad.Place.Line}: {bad.Why}")));
        if (_report.Doubled > 0) _lines.Part("Rows that say again what another said", [_report.Doubled.ToString(CultureInfo.InvariantCulture)]);
    }

    /// <summary>What became of all waterings, each opening once.</summary>
    private string Verdict()
    {
        var done = _report.Counts.FirstOrDefault(count => count.Class == AuditClass.Done).Count;
        var others = _report.Counts.Where(count => count.Class != AuditClass.Done)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $", {count.Count} {WordOf(count.Class)}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"{done} of {Phrases.Count(_report.MeantCount, "watering")} done{string.Concat(others)}{(_report.Leaks.Count > 0 ? ", water leaked" : "")}");
    }

    private string WhyNotKnown(AuditEntry entry)
    {
        if (entry.Place is { } row) return $"opened, no close in the log ({Place(row)})";
        if (entry.From + entry.Seconds + _report.Tolerance > _report.To) return $"the log ends at {_words.TimeAfter(_report.To, _words.DateAt(entry.From))}";
        return entry.From - _report.Tolerance < _report.From
            ? $"the log begins at {_words.TimeAfter(_report.From, _words.DateAt(entry.From))}"
            : "the log has a hole there";
    }

    private static string Words(AuditedDay day)
    {
        var done = day.Counts.FirstOrDefault(count => count.Class == AuditClass.Done).Count;
        var others = day.Counts.Where(count => count.Class != AuditClass.Done)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $", {count.Count} {WordOf(count.Class)}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"{SiteWords.Date(day.Day)} {day.Schedule.Name}: {done} of {day.Counts.Sum(count => count.Count)} done{string.Concat(others)}");
    }

    private string Words(AuditEntry entry)
    {
        var meant = entry.Seconds > 0 ? $", meant for {Phrases.Length(entry.Seconds)}" : "";
        var actual = entry.ActualFrom is not { } from
            ? ""
            : $", ran from {_words.TimeAfter(from, _words.DateAt(entry.From))}{(entry.ActualSeconds is { } seconds ? $" for {Phrases.Length(seconds)}" : "")}";
        var place = entry.Place is { } row ? $" ({Place(row)})" : "";
        var why = entry.Why is { } reason ? $", {reason}" : "";
        return $"{_words.Moment(entry.From)} {entry.Zone.DisplayName}: {WordOf(entry.Class)}{CauseOf(entry.Class)}{why}{meant}{actual}{Metered(entry)}{place}";
    }

    private static string CauseOf(AuditClass kind) => kind switch
    {
        AuditClass.NoWater => " (dry supply, or a closed manual valve)",
        AuditClass.TooLittle => " (a blockage, or a valve half closed)",
        AuditClass.TooMuch => " (a burst, or a leak)",
        _ => "",
    };

    /// <summary>Where something is wrong with a watering, what the meter has of it.</summary>
    private string Metered(AuditEntry entry) => entry.Volume switch
    {
        null => "",
        { Expected: { } expected, Litres: var litres } => $", by the meter {_water.Say(litres)} of {_water.Say(expected)} in that time",
        { Litres: var litres } => $", by the meter {_water.Say(litres)}",
    };

    private string Words(WaterLeak leak)
    {
        var rows = Place(leak.First) + (leak.Last == leak.First ? "" : $" to {Place(leak.Last)}");
        return $"{_water.Say(leak.Litres)}, a leak since {_words.Moment(leak.Since)}, "
            + $"shown until {_words.TimeAfter(leak.Until, _words.DateAt(leak.Since))} ({rows})";
    }

    private static string Place(LogPlace row) => string.Create(CultureInfo.InvariantCulture, $"{row.File}:{row.Line}");

    private string Words(AuditedList list)
    {
        var (first, last) = (_report.ListDates.From, _report.ListDates.Until.PlusDays(-1));
        var dates = MomentWords.Date(first) + (last > first ? $" to {MomentWords.Date(last)}" : "");
        return $"{list.Hash}: " + list.Match switch
        {
            ListMatch.Same => $"the device ran this file, its list for {dates}{(list.Controller is { } controller ? $" of {controller.Name}" : "")}",
            ListMatch.TooShort => "too short to identify which list that is",
            ListMatch.TooLong => $"not compared: the list of this file for {dates} is too long; compare a part of it (--from and --days, as in compile), "
                + "or the hash that compile writes",
            _ => $"not the list of this file for {dates}: the device ran another file or version, or a list for other dates"
                + (_report.IsOfDeployed ? "" : " (say --from and --days as in compile)"),
        };
    }

    private string Words(AuditedWater water)
    {
        var metered = water.MeteredLitres is { } litres ? $", by the meter {_water.Say(litres)}" : "";
        var known = water.MeantSeconds - water.NotKnownSeconds;
        var amounts = known + water.ActualSeconds > 0 ? $"{Amount(water.Zone, water.ActualSeconds)} of {Amount(water.Zone, known)}" : "";
        var more = amounts.Length == 0 ? "" : ", ";
        var unknown = water.NotKnownSeconds == 0 ? "" : $"{more}{Amount(water.Zone, water.NotKnownSeconds)} planned not known";
        return $"{water.Zone.DisplayName}: {amounts}{unknown}{metered}";
    }

    /// <summary>Water where the flow is known, else time.</summary>
    private string Amount(Zone zone, long seconds) => zone.LitresPerMinute is { } flow ? _water.Say(flow * seconds / 60) : Phrases.Length(seconds);

    private static IEnumerable<string> Few<T>(AuditList<T> list, Func<T, string> words)
    {
        var lines = list.First.Select(words);
        var more = list.Count - list.First.Length;
        return more == 0 ? lines : lines.Append(string.Create(CultureInfo.InvariantCulture, $"and {more} more"));
    }
}
