using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Documents.ICalendar;
using WaterScript.Model;

namespace WaterScript.Cli.Commands;

/// <summary>The options of <c>compile</c> that are about calendars.</summary>
internal sealed class CalendarCommandOptions
{
    /// <summary>What a build sets so that it gives the same bytes whenever it runs (reproducible-builds.org): seconds since 1970.</summary>
    private const string Epoch = "SOURCE_DATE_EPOCH";

    /// <summary>Of an earlier calendar; a hundred times what calendar apps bear.</summary>
    private const long MostEarlierBytes = 256L << 20;

    private const int MostAlarmMinutes = 7 * 24 * 60;

    private readonly Option<bool> _flat = Arguments.Switch("--flat", "icalendar: every event alone, in UTC, without rules.");
    private readonly Option<RuleForm?> _rules = OptionValues.Choice(
        "--rules",
        "icalendar: full (default), or simple for office calendars: rules that these map, each with an end.",
        ("full", RuleForm.Full),
        ("simple", RuleForm.Simple));

    private readonly Option<string?> _title = OptionValues.Create<string?>(
        "--title", "TEXT", $"icalendar: title of events, with {{site}}, {{label}}, {{name}} or {{zones}}. Default: {EventTitle.Default}", ReadTitle);

    private readonly Option<long?> _alarm = OptionValues.Create<long?>(
        "--alarm", "TIME", "icalendar: show an alarm so long before each event: 30min, 1h.", ReadAlarm);

    private readonly Option<bool> _noEndNotice =
        Arguments.Switch("--no-end-notice", "icalendar: no all-day event on the day after the last known watering.");

    private readonly Option<string?> _previous = Arguments.Text("--previous", "FILE",
        "icalendar: the calendar sent before; what changed since gets its next revision. Default: the file that -o replaces.");
    private readonly Option<EventUnit?> _events = OptionValues.Choice(
        "--events",
        "icalendar: what an event shows. Default: a pass, or a whole day of schedules of more than 12 passes a day.",
        ("pass", EventUnit.Pass),
        ("step", EventUnit.Step),
        ("day", EventUnit.Day));

    private readonly Option<Instant?> _stamp = OptionValues.UtcTime(
        "--stamp", "icalendar: when the file counts as made, in UTC: 2026-05-01T09:30:00Z. Default: SOURCE_DATE_EPOCH, else the site's effective date.");
    private readonly Option<int?> _sequence = OptionValues.Number(
        "--sequence", "N", "icalendar: revision of all events, in place of one for each by what changed.", 0, int.MaxValue);

    private readonly Option<bool> _despiteSize =
        Arguments.Switch("--despite-size", "icalendar: write although there are more single events than calendar apps like.");

    private enum RuleForm
    {
        Full,
        Simple,
    }

    private Option[] All => [_flat, _rules, _events, _title, _alarm, _noEndNotice, _stamp, _sequence, _previous, _despiteSize];

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in All) command.Options.Add(option);
    }

    /// <summary>Whether to write despite the size.</summary>
    public bool IsDespiteSize(ParseResult parsed) => parsed.GetValue(_despiteSize);

    /// <summary>Refuses them for other formats.</summary>
    /// <exception cref="CommandException">One is given.</exception>
    public void RefuseAny(ParseResult parsed)
    {
        foreach (var option in All)
        {
            if (parsed.GetResult(option) is { Implicit: false }) throw new CommandException($"{option.Name} is for calendars only: --to icalendar");
        }
    }

    /// <summary>What they say.</summary>
    /// <exception cref="CommandException">The time that a build sets cannot be read, or two do not go together.</exception>
    public CalendarOptions Read(ParseResult parsed, Site site, Controller? controller, Surroundings surroundings)
    {
        var rules = parsed.GetValue(_rules);
        if (rules is not null && parsed.GetValue(_flat)) throw new CommandException("--flat writes no rules; leave out --rules");
        return new(parsed.GetValue(_stamp) ?? DefaultStamp(site, surroundings))
        {
            IsFlat = parsed.GetValue(_flat),
            IsSimple = rules == RuleForm.Simple,
            Unit = parsed.GetValue(_events),
            Title = parsed.GetValue(_title) ?? EventTitle.Default,
            AlarmSeconds = parsed.GetValue(_alarm),
            HasEndNotice = !parsed.GetValue(_noEndNotice),
            Sequence = parsed.GetValue(_sequence),
            Controller = controller,
        };
    }

    /// <summary>The events of the file sent before; null where there is none.</summary>
    /// <exception cref="CommandException">The file that is named cannot be read.</exception>
    public EarlierEvents? Earlier(ParseResult parsed, OutputFile output, Surroundings surroundings)
    {
        if (parsed.GetValue(_previous) is not { } path) return output.ReadReplaced(MostEarlierBytes) is { } replaced ? EarlierEvents.Of(replaced) : null;
        using var file = RegularFile.OpenNamed(path, surroundings);
        if (file.Length > MostEarlierBytes) throw new CommandException($"{path} is too large for a calendar");
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return EarlierEvents.Of(bytes);
    }

    private static string? ReadTitle(ArgumentResult result)
    {
        var text = OptionValues.TextOf(result);
        if (string.IsNullOrWhiteSpace(text)) result.AddError($"--title needs a text, such as \"{EventTitle.Default}\"");
        else if (EventTitle.UnknownIn(text) is { } word)
            result.AddError($"--title has no {{{word}}}; there are {string.Join(", ", EventTitle.Words.Select(known => $"{{{known}}}"))}");
        return text;
    }

    /// <summary><c>30min</c>, <c>1h</c>, <c>1 h 30 min</c></summary>
    private static long? ReadAlarm(ArgumentResult result)
    {
        var text = OptionValues.TextOf(result);
        var (rest, minutes) = (text.Replace(" ", "", StringComparison.Ordinal), 0L);
        var isRead = rest.Length > 0;
        while (isRead && rest.Length > 0)
        {
            var digits = rest.TakeWhile(char.IsAsciiDigit).Count();
            isRead = digits is > 0 and <= 5;
            var unit = rest[digits..].StartsWith("min", StringComparison.Ordinal) ? "min" : "h";
            isRead = isRead && rest[digits..].StartsWith(unit, StringComparison.Ordinal);
            if (!isRead) break;
            minutes += long.Parse(rest[..digits], CultureInfo.InvariantCulture) * (unit == "h" ? 60 : 1);
            rest = rest[(digits + unit.Length)..];
        }

        if (!isRead || minutes > MostAlarmMinutes)
            result.AddError($"--alarm needs a time before an event such as 30min or 1h, not {UsageWords.Typed(text)}");
        return minutes * 60;
    }

    private static Instant DefaultStamp(Site site, Surroundings surroundings)
    {
        if (surroundings.Variable(Epoch) is not { Length: > 0 } epoch) return site.Effective.AtMidnight().InUtc().ToInstant();
        return long.TryParse(epoch, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) && seconds < NodaConstants.SecondsPerDay * 365L * 7_000
            ? Instant.FromUnixTimeSeconds(seconds)
            : throw new CommandException($"{Epoch} is \"{epoch}\", which is not a number of seconds since 1970");
    }
}
