using NodaTime;
using NodaTime.Text;

namespace WaterScript.Cli.Commands.Auditing;

/// <summary>A revision that the device had, as the command line names it: <c>REV</c>, or <c>REV=FROM/UNTIL</c> with its dates.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="From">Its first date; null for the date on which it was committed.</param>
/// <param name="Until">The first date that it was not in the device any more; null for the first date of the next.</param>
internal sealed record DatedRevision(string Revision, LocalDate? From, LocalDate? Until)
{
    /// <summary>Whether dates are given with it.</summary>
    public bool IsDated => From is not null;

    /// <summary>Reads one.</summary>
    /// <exception cref="CommandException">Its dates are none.</exception>
    public static DatedRevision Read(string text)
    {
        if (text.LastIndexOf('=') is not (> 0 and var sign)) return new DatedRevision(text, null, null);
        var (revision, dates) = (text[..sign], text[(sign + 1)..].Split('/'));
        if (dates is [var first, var end] && DateOf(first) is { } from && (end.Length == 0 || DateOf(end) is not null))
        {
            if (DateOf(end) is { } until && until <= from) throw new CommandException($"--revision {text}: its last date is not after the first");
            return new DatedRevision(revision, from, DateOf(end));
        }

        throw new CommandException(
            $"--revision {text}: write the dates like {revision}=2026-05-04/2026-05-11, of which the last is not included; or leave the last out");
    }

    private static LocalDate? DateOf(string text) => LocalDatePattern.Iso.Parse(text) is { Success: true } parsed ? parsed.Value : null;
}
