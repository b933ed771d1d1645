using WaterScript.Agronomy;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A run that brings more than the ground takes in and can hold on its surface.</summary>
internal sealed class Runoff : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("runoff", Severity.Warning, "water that runs off")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = "Follows the water that stands on the ground of each zone: what falls and is not taken in stays, until more stands than the soil holds at " +
            "that slope. The rest runs off. What stands from a run before, of this schedule or another, counts.",
        Matters = "The water runs onto the path, takes soil along, and the plants do not get it. In two or three pieces, with time to soak in between, the " +
            "ground takes all of it.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            soil fill { intake 10 mm/h; ponds 5 mm }
            zone bank { output 1; rate 40 mm/h; soil fill }
            schedule morning {
              on mon, thu
              start at 06:00
              steps { water bank for 18 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            soil fill { intake 10 mm/h; ponds 5 mm }
            zone bank { output 1; rate 40 mm/h; soil fill }
            schedule morning {
              on mon, thu
              start at 06:00
              steps { cycle 9 min soak 27 min { water bank for 18 min } }
            }
            """,
        FixSafety = """
            Waters the step in cycles short enough, with soaks long enough. Unsafe: the round takes longer.
            """,
        KnownLimits = "The soil takes in the same all the time, wet or dry. Drip is never looked at, nor are zones without a soil or an application rate, " +
            "nor manual schedules.",
        Sources = "Irrigation Association, *Landscape Irrigation Scheduling and Water Management*, 2005 (from memory).",
    };

    private readonly LintContext _context;
    private readonly Infiltration?[] _grounds;
    private readonly StandingWater _standing;
    private readonly Dictionary<(int Place, int Zone), Found> _found = [];
    private readonly Dictionary<int, long> _longest = [];

    public Runoff(LintContext context)
    {
        _context = context;
        _grounds = [.. context.Site.Zones.Select(zone => Infiltration.Of(zone))];
        _standing = new StandingWater(_grounds);
    }

    public bool Observes(Zone zone) => _grounds[zone.Index] is { IsFasterThanIntake: true };

    public void Visit(in Run run)
    {
        if (_standing.After(run) is not { } after) return;
        var place = _context.Steps.Of(run);
        _longest[place.Number] = Math.Max(_longest.GetValueOrDefault(place.Number), run.Seconds);
        if (after.RunOff > Tolerance) Add(place, run, after.Before, after.RunOff);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(entry.Value.Place, _context.Site.Zones[entry.Key.Zone], entry.Value));

    public IEnumerable<Gap> NotChecked() =>
        Gap.Each(Concern.Runoff, "runoff", _context.Site.Zones.Where(zone => !zone.IsSpare).Select(zone => (Thing.Of(zone), LacksFor(zone))));

    private string? LacksFor(Zone zone) =>
        _grounds[zone.Index] is not null ? null
        : zone.MillimetresPerHour is null ? "rate"
        : zone.Soil is null ? "soil"
        : zone.Soil.Intake is null ? "intake"
        : "ponds";

    private const decimal SecondsInHour = 3600;

    /// <summary>What a whole second may bring too much, and what a quotient may be off.</summary>
    private const decimal Tolerance = 0.02m;

    private void Add(StepPlace place, in Run run, decimal before, decimal over)
    {
        if (!_found.TryGetValue((place.Number, run.Zone), out var found)) _found[(place.Number, run.Zone)] = found = new Found(place);
        found.OccurrenceCounter.Add(run.Start, _context);
        found.IsInCycle |= run.Soak > 0;
        if (found.OccurrenceCounter.Reach(over)) (found.Before, found.Seconds) = (before, run.Seconds);
    }

    private Finding FindingFor(StepPlace place, Zone zone, Found found)
    {
        var ground = _grounds[zone.Index]!.Value;
        var given = Depth(ground.Rate * found.Seconds / SecondsInHour);
        var labels = place.Labels($"{given} in {Phrases.Length(found.Seconds)} at {Depth(ground.Rate)}/h").ToArray();
        var fix = FixFor(place, zone, found, out var lengths);
        return new Finding(Rule, $"{Depth(found.OccurrenceCounter.Worst)} of {given} runs off zone {zone.Name}", labels[0])
        {
            Others = [.. labels[1..], .. GroundOf(zone, ground)],
            Happens = found.OccurrenceCounter.Happens(_context),
            Details = $"From dry soil the longest run without runoff is {Phrases.Length(ground.LongestWholeRun)}."
                + (found.Before > 0 ? $" From a run before, {Depth(found.Before)} still stands." : ""),
            Assumed = zone.SlopePercent is null ? "the ground is level." : "",
            Help = lengths is { } written ? $"Water it in pieces, with time to soak in: `{written}`" : "Leave more time between the two waterings.",
            Fix = fix,
        };
    }

    /// <summary>The soil, and the slope where it decides how much may stand.</summary>
    private IEnumerable<Label> GroundOf(Zone zone, Infiltration ground)
    {
        var (intake, ponds) = ($"takes in {Depth(ground.Intake)}/h", $"{Depth(ground.Ponds)} may stand on it");
        if (zone.SlopePercent is not { } slope) return [new Label(zone.SoilLine ?? zone.Origin, $"{intake}, {ponds}")];
        return [new Label(zone.SoilLine ?? zone.Origin, intake), new Label(slope.Place, ponds)];
    }

    /// <summary>A cycle in which no zone of the step runs off; none where its ground takes nothing that stands.</summary>
    private Fix? FixFor(StepPlace place, Zone zone, Found found, out string? lengths)
    {
        lengths = null;
        Zone[] zones = [.. Waterings.ZonesIn([place.Step]).Append(zone).DistinctBy(each => each.Index)];
        Infiltration[] grounds = [.. zones.Select(each => _grounds[each.Index]).OfType<Infiltration>()];
        var longest = grounds.Min(ground => ground.LongestWholeRun);
        if (longest < 1 || (found.Seconds <= longest && !found.IsInCycle)) return null;
        var seconds = _longest[place.Number];
        var piece = CycleAndSoak.Piece(seconds, CycleAndSoak.Pieces(seconds, longest), number: 1);
        lengths = $"cycle {Phrases.Length(piece)} soak {Phrases.Length(grounds.Max(ground => ground.LeastWholeSoak(piece)))}";
        return found.IsInCycle ? null : Fix.Unsafe("water it in cycles", place.Step.Origin, $"{lengths} {{ {place.Step.Origin.Text} }}");
    }

    private string Depth(decimal millimetres) => _context.Depths.Say(millimetres);

    private sealed class Found(StepPlace place)
    {
        public StepPlace Place { get; } = place;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        public bool IsInCycle { get; set; }

        public decimal Before { get; set; }

        public long Seconds { get; set; }
    }
}
