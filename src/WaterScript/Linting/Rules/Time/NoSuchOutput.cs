using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Linting.Rules.Time;

/// <summary>An output that its controller has not got.</summary>
internal sealed class NoSuchOutput(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("no-such-output", Severity.Error, "an output that its controller has not got")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A zone or device is wired to an output above the number that its controller has.
            """,
        Matters = """
            Nothing opens.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4 }
            zone beds { output 5 }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4 }
            zone beds { output 4 }
            """,
        KnownLimits = """
            A controller without `outputs` is not looked at.
            """,
    };

    public IEnumerable<Finding> Findings() =>
        WiredOutput.AllOf(context.Site).Where(wired => wired.Number > wired.Controller.Outputs).Select(FindingFor);

    private static Finding FindingFor(WiredOutput wired)
    {
        var place = wired.Place;
        return Finding.At(Rule, place, $"controller {wired.Controller.Name} has {wired.Controller.Outputs} outputs, not {wired.Number}") with
        {
            Others = [new Label(wired.Controller.Outputs!.Value.Place, "what it has")],
            Help = "Use a free output, or correct the controller's `outputs`.",
        };
    }
}
