using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Restrictions;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>How a breach of a restriction is reported.</summary>
internal static class BreachWords
{
    private const string Authority = "A restriction is checked as written here; the authority's own text governs.";

    /// <summary>The finding.</summary>
    /// <param name="breach">The breach.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="context">The site.</param>
    /// <param name="heading">What is wrong.</param>
    /// <param name="label">What stands at the start of the schedule.</param>
    /// <param name="limit">What stands at the restriction's line.</param>
    /// <param name="help">What to do.</param>
    /// <param name="place">The cause, where it is not the start of the schedule.</param>
    public static Finding FindingFor(
        this Breach breach, Rule rule, LintContext context, string heading, string label, string limit, string help, Location? place = null) =>
        Finding.At(rule, place ?? context.StartOf(breach.First.Schedule, breach.First.StartNumber), heading, label) with
        {
            Others = [new Label(breach.Line, limit)],
            Happens = breach.OccurrenceCounter.Happens(context),
            Details = Phrases.Zones("It waters", breach.Zones.Select(index => context.Site.Zones[index])),
            Assumed = Authority,
            Excess = breach.Worst > 0 ? breach.Worst - breach.Allowed : null,
            Help = help,
        };

    /// <summary>The name of the schedule, as findings say it.</summary>
    public static string ScheduleIn(this Breach breach, LintContext context) => $"schedule {context.Site.Schedules[breach.First.Schedule].Name}";

    /// <summary><c>2 are</c>, or <c>1 is</c>.</summary>
    public static string AllowedWords(this Breach breach) => $"{Number(breach.Allowed)} {(breach.Allowed == 1 ? "is" : "are")}";

    /// <summary>The zone that breaks it first.</summary>
    public static Zone ZoneIn(this Breach breach, LintContext context) => context.Site.Zones[breach.First.Zone];

    /// <summary>A number as findings say it: at most two decimals.</summary>
    public static string Number(decimal number) => Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);
}
