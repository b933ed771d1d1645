using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A pump or a master on another controller than its zones, with clocks that may be further apart than its lead or lag.</summary>
internal sealed class PumpClock(LintContext context) : IRule
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        supply well { flow 20 L/min; bypass }
        controller shed { clock within 5 s }
        controller wall { clock within 5 s }
        zone beds { output 1 of wall; flow 15 L/min }
        pump lift { output 1 of shed; supply well; load 60 mA; starts LEAD before zones; stops 20 s after zones }
        schedule morning {
          every day
          start at 06:00
          steps { water beds for 15 min }
        }
        """;

    public static Rule Rule { get; } = new("pump-clock", Severity.Warning, "a pump by another clock than its zones")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "A pump or a master is wired to another controller than a zone that it serves, and the two clocks, by their `clock within`, may be further " +
            "apart than it starts before or after the zone, or than it stops.",
        Matters = """
            Each controller goes by its own clock. Where one is slow and the other fast, the pump presses against valves that are still closed, or the
            valves open and no pump runs.
            """,
        Fires = Example.Replace("LEAD", "5 s", StringComparison.Ordinal),
        Fixed = Example.Replace("LEAD", "20 s", StringComparison.Ordinal),
        KnownLimits = "How long a pump may press against closed valves because of its lead and the clocks together is judged by `pump-without-flow`.",
    };

    public IEnumerable<Finding> Findings() => context.Site.Devices.Select(Judge).OfType<Finding>();

    /// <summary>A device that several controllers switch is looked at as each of them has it.</summary>
    private static IEnumerable<Device> ByOutput(Site site) => site.Devices.SelectMany(device => device.ByOutput());

    public IEnumerable<Gap> NotChecked() => ByOutput(context.Site)
        .SelectMany(device => Apart(device).SelectMany(zone => new[] { device.Controller, zone.Controller! }))
        .Where(controller => controller.ClockWithin is null)
        .DistinctBy(controller => controller.Index)
        .Select(controller => new Gap(Concern.HandOvers, "pump clocks", [Thing.Of(controller)], "clock"));

    /// <summary>How far the clock of a device may be from those of its zones, in seconds; 0 where it has theirs, and where that is not known.</summary>
    public static long MostApart(Device device) => device.ByOutput()
        .SelectMany(wired => Apart(wired).Select(zone => Between(wired, zone))).Append(0).Max();

    /// <summary>The zones that another controller opens.</summary>
    private static IEnumerable<Zone> Apart(Device device) => device.Kind == DeviceKind.Injector || device.Output == 0
        ? []
        : device.Zones.Where(zone => zone.Controller!.Index != device.Controller.Index);

    private static long Between(Device device, Zone zone) =>
        device.Controller.ClockWithin?.WholeSeconds() + zone.Controller!.ClockWithin?.WholeSeconds() ?? 0;

    private static Finding? Judge(Device device)
    {
        var apart = MostApart(device);
        var (starts, stops) = (device.StartsAfter.WholeSeconds(), device.StopsAfter.WholeSeconds());
        return apart > Math.Abs(starts) ? FindingFor(device, apart, starts, isStart: true)
            : apart > Math.Abs(stops) ? FindingFor(device, apart, stops, isStart: false)
            : null;
    }

    private static Finding FindingFor(Device device, long apart, long after, bool isStart)
    {
        var wired = device.ByOutput().First(one => Apart(one).Any(other => Between(one, other) == apart));
        var zone = Apart(wired).First(other => Between(wired, other) == apart);
        var (pump, valve) = isStart ? ("start", "opens") : ("stop", "closes");
        var side = after < 0 ? "after" : "before";
        var wrong = $"{Phrases.Length(apart - Math.Abs(after))} {side} zone {zone.Name} {valve}";
        var place = (isStart ? device.WrittenStart?.Place : device.WrittenStop?.Place) ?? device.Origin;
        return Finding.At(Rule, place, $"{device.Word} {device.Name} may {pump} {wrong}", $"may {pump} on the wrong side of its zones") with
        {
            Others =
            [
                .. new[] { wired.Controller, zone.Controller! }.Select(controller => new Label(
                    controller.ClockWithin!.Value.Place, $"its clock may be {Phrases.Length(controller.ClockWithin.Value.WholeSeconds())} off")),
            ],
            Details = $"Clocks {Phrases.Length(apart)} apart − {Phrases.Length(Math.Abs(after))} {(after < 0 ? "before" : "after")} zones = " +
                $"{Phrases.Length(apart - Math.Abs(after))} {side} them.",
            Help = $"Wire {device.Name} to controller {zone.Controller!.Name}, or let it {pump} {Phrases.Length(apart)} or more " +
                $"{(isStart ? "before" : "after")} its zones{(isStart && apart > Math.Abs(device.StopsAfter.WholeSeconds()) ? StopToo(apart) : "")}, " +
                "with a `bypass` for that time.",
        };
    }

    private static string StopToo(long apart) => $" and stop {Phrases.Length(apart)} or more after them";
}
