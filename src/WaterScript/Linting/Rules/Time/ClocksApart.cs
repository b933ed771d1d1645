using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A hand-over between two controllers that is closer than their clocks are.</summary>
internal sealed class ClocksApart(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("clocks-apart", Severity.Warning, "a hand-over closer than two clocks are")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A zone of one controller closes and a zone of another opens on the same supply, and less lies between than the two clocks may be
            apart: the sum of what `clock within` allows each.
            """,
        Matters = """
            Each controller goes by its own clock. Where one is slow and the other fast, both zones are open together, and the supply gives
            neither enough.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 20 L/min }
            controller shed { clock within 20 s }
            controller wall { clock within 20 s }
            zone beds { output 1 of shed; flow 15 L/min }
            zone lawn { output 1 of wall; flow 15 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water beds, lawn for 15 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 20 L/min }
            controller shed { clock within 20 s }
            controller wall { clock within 20 s }
            zone beds { output 1 of shed; flow 15 L/min }
            zone lawn { output 1 of wall; flow 15 L/min }
            schedule morning {
              every day
              start at 06:00
              steps {
                water beds for 15 min
                pause 1 min
                water lawn for 15 min
              }
            }
            """,
        KnownLimits = "Two zones that the supply can feed together may meet, so they are left alone.",
    };

    private readonly List<Run>[] _lately = [.. context.Site.Supplies.Select(_ => new List<Run>())];
    private readonly long _mostApart = context.Site.Controllers.Select(controller => SecondsOf(controller) ?? 0).OrderDescending().Take(2).Sum();
    private readonly Dictionary<(Location Step, int Earlier, int Later), Close> _close = [];

    public bool Observes(Zone zone) => _mostApart > 0 && zone is { Supply: not null, Controller: not null };

    public void Visit(in Run run)
    {
        var lately = _lately[ZoneOf(run).Supply!.Index];
        var kept = 0;
        for (var i = 0; i < lately.Count; i++)
        {
            if (lately[i].End + _mostApart <= run.Start) continue;
            if (IsTooClose(lately[i], run)) Add(lately[i], run);
            lately[kept++] = lately[i];
        }

        lately.RemoveRange(kept, lately.Count - kept);
        lately.Add(run);
    }

    public IEnumerable<Finding> Findings() => _close.Select(entry => FindingFor(entry.Key.Step, entry.Value));

    public IEnumerable<Gap> NotChecked() => context.Site.Zones
        .Where(zone => zone is { Supply: not null, Controller: not null })
        .GroupBy(zone => zone.Supply!.Index, zone => zone.Controller!)
        .Select(sharing => sharing.DistinctBy(controller => controller.Index).ToArray())
        .Where(sharing => sharing.Length > 1)
        .SelectMany(sharing => sharing.Where(controller => controller.ClockWithin is null))
        .Select(controller => new Gap(Concern.HandOvers, "hand-overs", [Thing.Of(controller)], "clock"));

    private static long? SecondsOf(Controller controller) => controller.ClockWithin?.WholeSeconds();

    private static long? Apart(Zone earlier, Zone later) => SecondsOf(earlier.Controller!) + SecondsOf(later.Controller!);

    private Zone ZoneOf(in Run run) => context.Site.Zones[run.Zone];

    private bool IsTooClose(in Run earlier, in Run later)
    {
        var (before, after) = (ZoneOf(earlier), ZoneOf(later));
        return before.Controller!.Index != after.Controller!.Index
            && later.Start >= earlier.End
            && later.Start - earlier.End < Apart(before, after)
            && !(before.LitresPerMinute + after.LitresPerMinute <= before.Supply!.Flow?.InBase);
    }

    private void Add(in Run earlier, in Run later)
    {
        var key = (context.Steps.Of(later).Step.Origin, earlier.Zone, later.Zone);
        if (!_close.TryGetValue(key, out var close)) _close[key] = close = new Close(earlier, later);
        close.OccurrenceCounter.Add(later.Start, context);
    }

    private Finding FindingFor(Location step, Close close)
    {
        var (before, after) = (ZoneOf(close.Earlier), ZoneOf(close.Later));
        var between = close.Later.Start - close.Earlier.End;
        var apart = Apart(before, after)!.Value;
        return Finding.At(Rule, step, $"zones {before.Name} and {after.Name} change over closer than their clocks are",
            $"opens {after.Name} {(between == 0 ? "at once" : $"{Phrases.Length(between)} later")}") with
        {
            Others = [.. new[] { before, after }.Select(
                zone => new Label(zone.Controller!.ClockWithin!.Value.Place, $"its clock may be {Phrases.Length(SecondsOf(zone.Controller)!.Value)} off"))],
            Details = $"The clocks of {before.Controller!.Name} and {after.Controller!.Name} may be {Phrases.Length(apart)} apart.",
            Happens = close.OccurrenceCounter.Happens(context),
            Help = $"Leave {Phrases.Length(apart)} or more between them, with a pause or a later start.",
        };
    }

    private sealed record Close(Run Earlier, Run Later)
    {
        public OccurrenceCounter OccurrenceCounter { get; } = new();
    }
}
