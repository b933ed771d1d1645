using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A pump that starts before the master valve of its zones opens, or stops after it closes.</summary>
internal sealed class PumpBeforeMaster(LintContext context) : IRule
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        supply well { flow 20 L/min }
        zone beds { output 1; flow 15 L/min }
        master main { output 7; supply well; load 60 mA; starts 2 s before zones; stops 2 s after zones }
        pump lift { output 8; supply well; load 60 mA; STARTS }
        schedule morning {
          every day
          start at 06:00
          steps { water beds for 10 min }
        }
        """;

    public static Rule Rule { get; } = new("pump-before-master", Severity.Warning, "a pump that runs while its master is closed")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "A pump and a master valve serve the same zone, and by their `starts` and `stops` the pump starts before the master opens, or stops after it " +
            "has closed.",
        Matters = """
            The pump presses against the closed master, or sucks at it. Zones that are open do not help: the way to them is shut.
            """,
        Fires = Example.Replace("STARTS", "starts 5 s before zones", StringComparison.Ordinal),
        Fixed = Example.Replace("STARTS", "starts 1 s before zones", StringComparison.Ordinal),
        KnownLimits = "Pumps on a supply with a `bypass` or a `pressure-tank` with its pressures are not looked at, nor are a pump and a master on different " +
            "controllers. A gap that the pump bridges and the master does not is left to `pump-without-flow`.",
    };

    public IEnumerable<Finding> Findings() =>
        from pump in context.Site.Devices
        where !PumpWithoutFlow.MayRunOn(pump)
        from master in context.Site.Devices
        where master.Kind == DeviceKind.Master && master.Output > 0 && pump.ByOutput().Any(one => master.ByOutput().Any(
            other => other.Controller.Index == one.Controller.Index && one.Zones.Any(other.RunsBecauseOf)))
        where (Early(pump, master) > 0 || Late(pump, master) > 0)
        select FindingFor(pump, master);

    /// <summary>Seconds from the start of the pump to the opening of the master.</summary>
    private static long Early(Device pump, Device master) => (master.StartsAfter - pump.StartsAfter).WholeSeconds();

    /// <summary>Seconds from the closing of the master to the stop of the pump.</summary>
    private static long Late(Device pump, Device master) => (pump.StopsAfter - master.StopsAfter).WholeSeconds();

    private static Finding FindingFor(Device pump, Device master)
    {
        var (early, late) = (Early(pump, master), Late(pump, master));
        var place = early > 0 ? pump.WrittenStart?.Place : pump.WrittenStop?.Place;
        var other = early > 0 ? master.WrittenStart?.Place : master.WrittenStop?.Place;
        var what = early > 0 ? $"starts {Phrases.Length(early)} before master {master.Name} opens"
            : $"stops {Phrases.Length(late)} after master {master.Name} closes";
        return Finding.At(Rule, place ?? pump.Origin, $"pump {pump.Name} {what}", "runs against a closed master") with
        {
            Others = [new Label(other ?? master.Origin, early > 0 ? "opens later" : "closes earlier")],
            Details = string.Join("\n", Sums(pump, master)),
            Help = early > 0
                ? $"Start pump {pump.Name} {Side(master.StartsAfter.WholeSeconds())} or later{(late > 0 ? ", and stop it earlier" : "")}."
                : $"Stop pump {pump.Name} {Side(master.StopsAfter.WholeSeconds())} or earlier.",
        };
    }

    private static IEnumerable<string> Sums(Device pump, Device master)
    {
        if (Early(pump, master) is > 0 and var early)
        {
            yield return $"The pump starts {Side(pump.StartsAfter.WholeSeconds())}, the master opens {Side(master.StartsAfter.WholeSeconds())}: " +
                $"{Phrases.Length(early)} against a closed master.";
        }

        if (Late(pump, master) is > 0 and var late)
        {
            yield return $"The pump stops {Side(pump.StopsAfter.WholeSeconds())}, the master closes {Side(master.StopsAfter.WholeSeconds())}: " +
                $"{Phrases.Length(late)} against a closed master.";
        }
    }

    /// <summary><c>5 s before zones</c></summary>
    private static string Side(long after) => after switch
    {
        0 => "with its zones",
        < 0 => $"{Phrases.Length(-after)} before zones",
        _ => $"{Phrases.Length(after)} after zones",
    };
}
