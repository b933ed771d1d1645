using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>More zones open than a controller may have open at once.</summary>
internal sealed class TooManyZones(LintContext context) : IRule, ISwitchingObserver
{
    public static Rule Rule { get; } = new("too-many-zones", Severity.Error, "more zones at once than the controller may open")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Counts the zones that a controller has open at any instant, and compares the number with its `at most N zones`. Pumps, masters and " +
            "injectors do not count.",
        Matters = """
            Many controllers refuse to open one more, or drop one that is open, and do not say so.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4; at most 2 zones }
            zone a { output 1 }
            zone b { output 2 }
            zone c { output 3 }
            schedule morning {
              every day
              start at 06:00
              steps { water a + b + c for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4; at most 2 zones }
            zone a { output 1 }
            zone b { output 2 }
            zone c { output 3 }
            schedule morning {
              every day
              start at 06:00
              steps {
                water a + b for 10 min
                water c for 10 min
              }
            }
            """,
        FixSafety = "Writes commas in place of the pluses of a step, or a later start. Unsafe: the watering takes longer or comes later. A later start is " +
            "tried against all rules before it is proposed.",
        KnownLimits = "A change-over `overlap` counts here: for so long both valves are open. A valve that waits for its turn, because the controller has " +
            "a `stagger`, is not open yet.\n" +
            "What is too much twice within one second counts as once.",
        Sources = "The number is that of the controller's own manual.",
    };

    private readonly Overloads _overloads = new(context);
    private readonly OpenContributions[] _controllers = [.. context.Site.Controllers.Select(_ => new OpenContributions())];

    public bool Observes(Controller controller) => controller.AtMostZones is not null;

    public void Visit(in Switching switching)
    {
        if (switching.Zone < 0) return;
        var most = context.Site.Controllers[switching.Controller].AtMostZones!.Value;
        var open = _controllers[switching.Controller];
        if (open.Since.Milliseconds < switching.Milliseconds && open.Contributions.Count > most)
            _overloads.Add(switching.Controller, most, open.Contributions, open.Since.Second, switching.Second);
        open.Since = switching;
        if (switching.IsOpen) open.Open(switching, new Contribution(context.Origins.Of(switching.Opening), switching.Zone, Device: -1, Amount: 1));
        else open.Close(switching);
    }

    public IEnumerable<Finding> Findings() => _overloads.All.Select(FindingFor);

    private Finding FindingFor(Overload overload)
    {
        var controller = context.Site.Controllers[overload.Owner];
        var limit = new Label(controller.AtMostZones!.Value.Place, "the limit");
        var finding = OverloadWords.FindingFor(
            Rule, context, overload, $"controller {controller.Name} opens {(long)overload.Worst} zones at once, may open {controller.AtMostZones}",
            $"opens {OverloadWords.UpTo(overload, Phrases.Count((long)overload.Worst, "zone"))}", limit);
        finding = finding with
        {
            Details = $"{finding.Details}{OverloadWords.WorstNames(context, overload)}.",
            Excess = overload.Worst - controller.AtMostZones!.Value.Value,
        };
        return OverloadWords.WithHelp(finding, context, overload, _overloads, trial => new TooManyZones(trial));
    }
}
