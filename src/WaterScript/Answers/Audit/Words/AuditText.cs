using System.Globalization;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Answers.Audit.Water;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Words;

/// <summary>What ran against what was meant, as a report for people.</summary>
internal sealed class AuditText
{
    private readonly AuditReport _report;
    private readonly SiteWords _words;
    private readonly WaterWords _water;
    private readonly IReportLines _lines;
    private readonly bool _isOneDate;

    private AuditText(AuditReport report, IReportLines lines)
    {
        (_report, _words, _water, _lines) = (report, new SiteWords(report.Site), new WaterWords(report.Site), lines);
        _isOneDate = _words.DateAt(report.From) == _words.DateAt(report.To);
    }

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
        ListMatch.Given => "given",
        ListMatch.Other => "another",
        ListMatch.TooLong => "too long to compare",
        _ => "too short to identify",
    };

    private void Write()
    {
        _lines.Heading($"{_report.Site.DisplayName}, {_words.Moment(_report.From)} to {_words.TimeAfter(_report.To, _words.DateAt(_report.From))}, "
            + $"{Phrases.Count(_report.Rows, "row")}: {Verdict()}.");
        if (_report.InPart is { } part) _lines.Part("Over the limit", [part.Words(_words)]);
        if (_report.Clock is { } clock) _lines.Part("Clock of the log", ClockWords.Of(clock, _words));
        _lines.Part("Lists that were due while the device had another", _report.Missed.Select(Words));
        if (_report.Days.Count > 1) _lines.Part("By schedule and day", Few(_report.Days, Words));
        _lines.Part("Not as planned", Few(_report.NotAsMeant, Words));
        _lines.Part("Water while nothing was open", Few(_report.Leaks, Words));
        _lines.Part("Not known", Few(_report.NotKnown, NotKnown));
        Sentence("Water, from run times", new WaterSentence(_report, WhyNothingIsKnown).Write());
        Sentence("Water by the meter", _report.MeterLitres is { } litres ? _water.Say(litres) : null);
        WriteLists();
        Sentence("Ignored", IgnoredRows.Of(_report));
        if (_report.Doubled > 0) Sentence("Repeated", $"{Phrases.Count(_report.Doubled, "row")}, counted once");
        if (!IsMetered) _lines.Sentence("\"Done\" means switched; the log does not show that water flowed.");
    }

    private bool IsMetered => _report.MeterLitres is not null || _report.Water.Any(water => water.MeteredLitres is not null);

    private void Sentence(string label, string? words)
    {
        if (words is not null) _lines.Sentence($"{label}: {words}.");
    }

    private void WriteLists()
    {
        const string title = "Timetable in the device";
        if (!_report.HasMoreLists && _report.Lists is [var only]) Sentence(title, ListWords.Of(_report, only));
        else _lines.Part(title, _report.Lists.Select(list => ListWords.Of(_report, list)).Concat(_report.HasMoreLists ? ["and others"] : []));
    }

    private string Words(MissedUpdate missed) => $"{missed.Due.File}: the device had {missed.Had.File}, by rows from {_words.Moment(missed.First)} to "
        + _words.TimeAfter(missed.Last, _words.DateAt(missed.First));

    /// <summary>What became of all waterings, each opening once.</summary>
    private string Verdict()
    {
        var done = _report.Counts.FirstOrDefault(count => count.Class == AuditClass.Done).Count;
        var others = _report.Counts.Where(count => count.Class != AuditClass.Done)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $", {count.Count} {WordOf(count.Class)}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"{done} of {Phrases.Count(_report.MeantCount, "watering")} done{string.Concat(others)}{(_report.Leaks.Count > 0 ? ", water leaked" : "")}");
    }

    private static string Words(AuditedDay day)
    {
        var done = day.Counts.FirstOrDefault(count => count.Class == AuditClass.Done).Count;
        var others = day.Counts.Where(count => count.Class != AuditClass.Done)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $", {count.Count} {WordOf(count.Class)}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"{SiteWords.Date(day.Day)}{(day.Schedule is { } schedule ? " " + schedule.Name : "")}: "
                + $"{done} of {day.Counts.Sum(count => count.Count)} done{string.Concat(others)}");
    }

    /// <summary>The time alone where all the log is of one date.</summary>
    private string When(long instant) => _isOneDate && _words.DateAt(instant) == _words.DateAt(_report.From) ? _words.Time(instant) : _words.Moment(instant);

    private string NotKnown(AuditEntry entry)
    {
        var why = entry.Place is null ? WhyNothingIsKnown(entry) : "opened, no close in the log";
        return $"{Begin(entry)}: {why}; {Phrases.Length(entry.Seconds)} planned{Row(entry.Place)}";
    }

    private string WhyNothingIsKnown(AuditEntry entry)
    {
        if (entry.From + entry.Seconds + _report.Tolerance > _report.To) return $"the log ends at {_words.TimeAfter(_report.To, _words.DateAt(entry.From))}";
        return entry.From - _report.Tolerance < _report.From
            ? $"the log begins at {_words.TimeAfter(_report.From, _words.DateAt(entry.From))}"
            : "the log has a hole there";
    }

    private string Words(AuditEntry entry)
    {
        string?[] facts =
        [
            $"{WordOf(entry.Class)}{CauseOf(entry.Class)}{(entry.Why is { } reason ? $", {reason}" : "")}{Ran(entry)}",
            Metered(entry),
            entry.NotKnownSeconds > 0 ? $"{Phrases.Length(entry.NotKnownSeconds)} not known" : null,
            entry.Seconds > 0 ? $"{Phrases.Length(entry.Seconds)} planned" : null,
        ];
        return $"{Begin(entry)}: {string.Join("; ", facts.OfType<string>())}{Row(entry.Place)}";
    }

    private string Begin(AuditEntry entry) => $"{When(entry.From)}  {entry.Zone.DisplayName}";

    private static string CauseOf(AuditClass kind) => kind switch
    {
        AuditClass.NoWater => " (dry supply, or a closed manual valve)",
        AuditClass.TooLittle => " (a blockage, or a valve half closed)",
        AuditClass.TooMuch => " (a burst, or a leak)",
        _ => "",
    };

    /// <summary>How long it ran, and from when where that is not when it was due.</summary>
    private string Ran(AuditEntry entry)
    {
        if (entry.ActualFrom is not { } from) return "";
        var length = entry.ActualSeconds is { } seconds ? $" {Phrases.Length(seconds)}" : "";
        return from == entry.From && length.Length > 0 ? $", ran{length}" : $", ran{length} from {_words.TimeAfter(from, _words.DateAt(entry.From))}";
    }

    /// <summary>Where something is wrong with a watering, what the meter has of it.</summary>
    private string? Metered(AuditEntry entry) => entry.Volume switch
    {
        null => null,
        { Expected: { } expected, Litres: var litres } => $"by the meter {_water.Say(litres)} of {_water.Say(expected)} in that time",
        { Litres: var litres } => $"by the meter {_water.Say(litres)}",
    };

    private string Words(WaterLeak leak)
    {
        var rows = leak.Last == leak.First ? Place(leak.First) : $"{Place(leak.First)} to {Place(leak.Last)}";
        return $"{When(leak.Since)}  a leak, {_water.Say(leak.Litres)} until {_words.TimeAfter(leak.Until, _words.DateAt(leak.Since))} ({rows})";
    }

    private static string Row(LogPlace? row) => row is null ? "" : $" ({Place(row)})";

    private static string Place(LogPlace row) => string.Create(CultureInfo.InvariantCulture, $"{row.File}:{row.Line}");

    private static IEnumerable<string> Few<T>(AuditList<T> list, Func<T, string> words)
    {
        var lines = list.First.Select(words);
        var more = list.Count - list.First.Length;
        return more == 0 ? lines : lines.Append(string.Create(CultureInfo.InvariantCulture, $"and {more} more"));
    }
}
