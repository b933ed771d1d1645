using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>How two versions of a site are compared.</summary>
/// <param name="from">First date to compare; null for the site's own.</param>
/// <param name="until">The first date that is not compared; null for as far as a check looks.</param>
/// <param name="scope">What is compared.</param>
/// <param name="terminal">Where progress is shown.</param>
internal sealed class SiteComparison(LocalDate? from, LocalDate? until, DiffScope scope, Terminal terminal)
{
    /// <summary>Both versions are checked, and then compared, in the time of one check.</summary>
    private const int Versions = 2;

    /// <summary>Compares two versions that were read without an error.</summary>
    public WateringChanges Of(VersionRead old, VersionRead @new) => Of(
        terminal.During("Checking the old version", () => old.Checked(Versions)), terminal.During("Checking the new version", () => @new.Checked(Versions)));

    /// <summary>Compares two versions that were checked.</summary>
    public WateringChanges Of(CheckedSite old, CheckedSite @new)
    {
        var horizon = Within(WateringChanges.HorizonOf(old.Reading.Site!, @new.Reading.Site!));
        return terminal.During("Comparing", () => WateringChanges.Of(old, @new, horizon)).Only(scope);
    }

    /// <summary>All of a site of which there is one version only.</summary>
    public WateringChanges Whole(VersionRead version, DiffSides sides)
    {
        var site = terminal.During("Checking", () => version.Checked(share: 1));
        return WateringChanges.OfWhole(site, sides, Within(WateringChanges.HorizonOf(site.Reading.Site!, site.Reading.Site!))).Only(scope);
    }

    private Horizon Within(Horizon whole)
    {
        var horizon = new Horizon(from ?? whole.From, until ?? (from > whole.From ? LocalDate.Max(whole.Until, from.Value.PlusYears(1)) : whole.Until));
        if (horizon.Until <= horizon.From) throw new CommandException("--until is not after the first date");
        return Period.DaysBetween(horizon.From, horizon.Until) <= Limits.HorizonDays
            ? horizon
            : throw new CommandException($"more than {Limits.HorizonDays} days; choose a nearer --until");
    }
}
