using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>Outputs of several controllers on the coil of one valve.</summary>
internal sealed class OutputsTied(LintContext context) : IRule
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller shed { outputs 4 }
        controller barn { outputs 4 }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA }
        zone beds { output 1 of shed; flow 8 L/min }
        zone pots { output 1 of barn; flow 4 L/min }
        master main { output 4 of shed, 4 of barn; zones beds, pots; SWITCHED }
        schedule morning {
          every day
          start at 06:00
          steps { water beds, pots for 10 min }
        }
        """;

    public static Rule Rule { get; } = new("outputs-tied", Severity.Warning, "outputs of several controllers on one valve")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "A pump, a master or an injector has outputs of several controllers, and a `valve`.",
        Matters = """
            Two outputs on one coil are tied together: what the one gives flows back into the other, and what only the one
            turned off stays on. With a relay for each output nothing flows from one to the other.
            """,
        Fires = Example.Replace("SWITCHED", "valve ac24", StringComparison.Ordinal),
        Fixed = Example.Replace("SWITCHED", "load 60 mA", StringComparison.Ordinal),
        KnownLimits = "A `load` is taken for that of a relay of its own on each output.",
        Sources = "Common practice: outputs of two transformers are never connected.",
    };

    public IEnumerable<Finding> Findings() => context.Site.Devices
        .Where(device => device.Valve is not null && !device.FurtherOutputs.IsEmpty).Select(FindingFor);

    private static Finding FindingFor(Device device)
    {
        Device[] outputs = [.. device.ByOutput()];
        var controllers = Phrases.Names([.. outputs.Select(output => output.Controller.Name)]);
        return Finding.At(Rule, outputs[1].WrittenOutput!.Value.Place, $"{controllers} are wired to one valve, that of {device.Word} {device.Name}",
            "this output too") with
        {
            Others = [new Label(outputs[0].WrittenOutput!.Value.Place, "one output")],
            Help = "Give each output a relay of its own, and write the current of its coil as `load` in place of `valve`.",
        };
    }
}
