using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;

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
        .SelectMany(users => users.OrderBy(user => PlaceOf(user).Span.Start).Skip(1).Select(user => FindingFor(user, users.MinBy(other => PlaceOf(other).Span.Start)!)));

    private static Location PlaceOf(WiredOutput wired) => wired.Zone?.PlaceOf(Schema.Zone.Output) ?? wired.Device!.PlaceOf(Schema.Device.Output);

    private static Finding FindingFor(WiredOutput user, WiredOutput first) =>
        Finding.At(Rule, PlaceOf(user), $"output {user.Number} is used by {first.Name} and {user.Name}", $"{user.Name} is wired here too") with
        {
            Others = [new Label(PlaceOf(first), $"{first.Name} is wired here")],
            Help = "Give one of them another output.",
        };
}
