using System.CommandLine;
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

    private readonly Option<bool> _flat = Arguments.Switch("--flat", "icalendar: every event alone, in UTC, without rules.");
    private readonly Option<EventUnit?> _events = OptionValues.Choice(
        "--events",
        "icalendar: what an event shows. Default: a pass, or a whole day of schedules of more than 12 passes a day.",
        "what an event can show",
        ("pass", EventUnit.Pass),
        ("step", EventUnit.Step),
        ("day", EventUnit.Day));

    private readonly Option<Instant?> _stamp = OptionValues.UtcTime(
        "--stamp", "icalendar: when the file counts as made, in UTC: 2026-05-01T09:30:00Z. Default: SOURCE_DATE_EPOCH, else the site's effective date.");
    private readonly Option<int?> _sequence = OptionValues.Number(
        "--sequence", "N", "icalendar: revision of the events; one more than in the file sent before.", "whole number", 0, int.MaxValue);

    private readonly Option<bool> _despiteSize =
        Arguments.Switch("--despite-size", "icalendar: write although there are more single events than calendar apps like.");

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
    /// <exception cref="CommandException">The time that a build sets cannot be read.</exception>
    public CalendarOptions Read(ParseResult parsed, Site site, Controller? controller, bool isOpenEnded, Surroundings surroundings) =>
        new(parsed.GetValue(_stamp) ?? DefaultStamp(site, surroundings))
        {
            IsFlat = parsed.GetValue(_flat),
            Unit = parsed.GetValue(_events),
            Sequence = parsed.GetValue(_sequence),
            Controller = controller,
            IsOpenEnded = isOpenEnded,
        };

    private static Instant DefaultStamp(Site site, Surroundings surroundings)
    {
        if (surroundings.Variable(Epoch) is not { Length: > 0 } epoch) return site.Effective.AtMidnight().InUtc().ToInstant();
        return long.TryParse(epoch, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) && seconds < NodaConstants.SecondsPerDay * 365L * 7_000
            ? Instant.FromUnixTimeSeconds(seconds)
            : throw new CommandException($"{Epoch} is \"{epoch}\", which is not a number of seconds since 1970");
    }
}
