using System.CommandLine;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.ICalendar;
using WaterScript.Model;

namespace WaterScript.Cli.Commands;

/// <summary>The options of <c>compile</c> that are about calendars.</summary>
internal sealed class CalendarCommandOptions
{
    /// <summary>What a build sets so that it gives the same bytes whenever it runs (reproducible-builds.org): seconds since 1970.</summary>
    private const string Epoch = "SOURCE_DATE_EPOCH";

    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss'Z'");

    private readonly Option<bool> _flat = Arguments.Switch("--flat", "icalendar: every event alone, in UTC, without rules.");
    private readonly Option<string?> _events = Arguments.Text("--events", "pass|step|day", "icalendar: what an event shows. Default: a pass, or a whole day of schedules of more than 12 passes a day.");
    private readonly Option<string?> _stamp = Arguments.Text("--stamp", "TIME", "icalendar: when the file counts as made, in UTC: 2026-05-01T09:30:00Z. Default: SOURCE_DATE_EPOCH, else the site's effective date.");
    private readonly Option<string?> _sequence = Arguments.Text("--sequence", "N", "icalendar: revision of the events; one more than in the file sent before.");
    private readonly Option<bool> _despiteSize = Arguments.Switch("--despite-size", "icalendar: write although there are more single events than calendar apps like.");

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[_flat, _events, _stamp, _sequence, _despiteSize]) command.Options.Add(option);
    }

    /// <summary>Whether to write despite the size.</summary>
    public bool IsDespiteSize(ParseResult parsed) => parsed.GetValue(_despiteSize);

    /// <summary>Refuses them for other formats.</summary>
    /// <exception cref="CommandException">One is given.</exception>
    public void RefuseAny(ParseResult parsed)
    {
        foreach (var option in (Option[])[_flat, _events, _stamp, _sequence, _despiteSize])
        {
            if (parsed.GetResult(option) is { Implicit: false }) throw new CommandException($"{option.Name} is for calendars only: --to icalendar");
        }
    }

    /// <summary>What they say.</summary>
    /// <exception cref="CommandException">One of them cannot be read.</exception>
    public CalendarOptions Read(ParseResult parsed, Site site, Controller? controller, bool isOpenEnded, Surroundings surroundings) =>
        new(Stamp(parsed.GetValue(_stamp), site, surroundings))
    {
        IsFlat = parsed.GetValue(_flat),
        Unit = Unit(parsed.GetValue(_events)),
        Sequence = parsed.GetValue(_sequence) is { } number ? Sequence(number) : null,
        Controller = controller,
        IsOpenEnded = isOpenEnded,
    };

    private static EventUnit? Unit(string? word) => word switch
    {
        null => null,
        "pass" => EventUnit.Pass,
        "step" => EventUnit.Step,
        "day" => EventUnit.Day,
        _ => throw new CommandException($"\"{word}\" after --events is nothing that an event can show" + (Spelling.Nearest(word, ["pass", "step", "day"]) is { } near ? $"; did you mean {near}?" : "; there are pass, step and day")),
    };

    private static int Sequence(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new CommandException($"\"{text}\" after --sequence is no whole number from 0 to {int.MaxValue}");

    private static Instant Stamp(string? text, Site site, Surroundings surroundings)
    {
        if (text is not null)
        {
            return Utc.Parse(text) is { Success: true } stamp && IsWritable(stamp.Value)
                ? stamp.Value
                : throw new CommandException($"\"{text}\" after --stamp is no time in UTC; write it like 2026-05-01T09:30:00Z, with the Z");
        }

        if (surroundings.Variable(Epoch) is not { Length: > 0 } epoch) return site.Effective.AtMidnight().InUtc().ToInstant();
        return long.TryParse(epoch, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) && seconds < NodaConstants.SecondsPerDay * 365L * 7_000
            ? Instant.FromUnixTimeSeconds(seconds)
            : throw new CommandException($"{Epoch} is \"{epoch}\", which is no number of seconds since 1970");
    }

    private static bool IsWritable(Instant stamp) => stamp.InUtc().Year is >= 1 and <= 9_000;
}
