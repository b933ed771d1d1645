using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Linting.Rules.Time;

/// <summary>One output with two users.</summary>
internal sealed class OutputShared(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("output-shared", Severity.Error, "one output with two users")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Two zones, pumps, masters or injectors are wired to one output of one controller.
            """,
        Matters = """
            Whatever one of them does, the other does too.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 1 }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            """,
    };

    public IEnumerable<Finding> Findings() => WiredOutput.AllOf(context.Site)
        .GroupBy(wired => (wired.Controller.Index, wired.Number))
        .SelectMany(users =>
            users.OrderBy(user => user.Place.Span.Start).Skip(1).Select(user => FindingFor(user, users.MinBy(other => other.Place.Span.Start)!)));

    private static Finding FindingFor(WiredOutput user, WiredOutput first) =>
        Finding.At(Rule, user.Place, $"{first.Name} and {user.Name} share output {user.Number}", $"{user.Name} is wired here too") with
        {
            Others = [new Label(first.Place, $"{first.Name} is wired here")],
            Help = "Give one of them another output.",
        };
}
