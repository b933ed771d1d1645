using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Restrictions;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>A schedule that breaks a line of a restriction: one cause, however often.</summary>
/// <param name="rule">The rule that finds it.</param>
/// <param name="restriction">The restriction.</param>
/// <param name="line">The line that is broken.</param>
/// <param name="first">What breaks it first.</param>
internal sealed class Breach(Rule rule, Restriction restriction, Location line, WateredPiece first)
{
    private const string Authority = "The restriction is the rule as written here; the authority's own text governs.";

    private readonly OccurrenceCounter _occurrenceCounter = new();
    private readonly SortedSet<int> _zones = [];

    /// <summary>The rule that finds it.</summary>
    public Rule Rule => rule;

    /// <summary>The restriction.</summary>
    public Restriction Restriction => restriction;

    /// <summary>What breaks it first.</summary>
    public WateredPiece First => first;

    /// <summary>When it first breaks it, in Unix seconds.</summary>
    public long Moment { get; private set; }

    /// <summary>The most that it comes to.</summary>
    public decimal Worst { get; private set; }

    /// <summary>Whether it comes to less at other times.</summary>
    public bool IsVaried { get; private set; }

    /// <summary>What is allowed then.</summary>
    public long Allowed { get; private set; }

    /// <summary>The date of the pass in which it comes to the most, in days since 1970-01-01.</summary>
    public int WorstDay { get; private set; }

    /// <summary>Counts one time.</summary>
    public void Add(long moment, in WateredPiece piece)
    {
        if (_occurrenceCounter.Add(moment, piece.Day)) Moment = moment;
        _zones.Add(piece.Zone);
    }

    /// <summary>Takes in what it comes to.</summary>
    public void Reach(decimal amount, in WateredPiece piece, long allowed = 0)
    {
        _zones.Add(piece.Zone);
        IsVaried |= Worst > 0 && amount != Worst;
        if (amount > Worst) (Worst, Allowed, WorstDay) = (amount, allowed, piece.PassDay);
    }

    /// <summary>What is said of it.</summary>
    /// <param name="context">The site.</param>
    /// <param name="heading">What is wrong.</param>
    /// <param name="label">What stands at the start of the schedule.</param>
    /// <param name="limit">What stands at the restriction's line.</param>
    /// <param name="help">What to do.</param>
    public Finding FindingFor(LintContext context, string heading, string label, string limit, string help) =>
        Finding.At(rule, context.StartOf(first.Schedule, first.StartNumber), heading, label) with
        {
            Others = [new Label(line, limit)],
            Happens = _occurrenceCounter.Happens(context),
            Details = Phrases.Zones(_zones.Count == 1 ? "The zone is" : "The zones are", _zones.Select(index => context.Site.Zones[index])),
            Assumed = Authority,
            Help = help,
        };

    /// <summary>The name of the schedule, as findings say it.</summary>
    public string ScheduleIn(LintContext context) => $"\"{context.Site.Schedules[first.Schedule].Name}\"";

    /// <summary>The zone that breaks it first.</summary>
    public Zone ZoneIn(LintContext context) => context.Site.Zones[first.Zone];

    /// <summary>A number as findings say it: at most two decimals.</summary>
    public static string Number(decimal number) => Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);
}
