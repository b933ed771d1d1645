using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A wire so long and thin that the valve at its end does not get the voltage that it works from.</summary>
internal sealed class VoltageDrop(LintContext context) : IRule, ISwitchingObserver
{
    public static Rule Rule { get; } = new("voltage-drop", Severity.Warning, "too little voltage at the end of the wire")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Takes the voltage that a wire loses, out and back, at the inrush current of a valve or a pump from that of the power supply, and " +
            "compares the rest with the `minimum-voltage`.\n" +
            "Through a `shared-return` the others that are on at that moment lose too. Where the power supply gives less to begin with, no wire has to be " +
            "known.",
        Matters = """
            A valve at the end of a thin wire opens on the bench and not in the ground; it hums, stays shut, and is replaced by another that does the same.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { transformer 40 VA at 24 V }
            }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 22 V }
            zone far { output 1; valve ac24; wire 250 m 1.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { transformer 40 VA at 24 V }
            }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 22 V }
            zone far { output 1; valve ac24; wire 250 m 2.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        KnownLimits = "Wires are taken to be copper at 40 °C, as on a wall or in warm ground in summer; in the sun they are warmer. Of a latching valve " +
            "the resistance of the wire is added to\n" +
            "that of its coil; `capacitor-not-recharged` looks at pulses that follow one another. An old transformer may give less than is written on it. " +
            "Thicker wires are proposed up to 50 mm2, or 4 AWG.\n" +
            "A `shared-return` is taken to be shared along the shorter of two wires, and to be as thick as the one that is looked at. Pumps and relays are " +
            "looked at where they have a `minimum-voltage`.",
        Sources = "U = I · (R out + R back). Resistance of copper conductors: IEC 60228:2004, class 1 and 2, and 5 for `flexible`; American Wire Gauge, ASTM " +
            "B258. Copper gains 0.393 % with each kelvin (IEC 60028). Common practice: 40 °C.",
    };

    private readonly LintContext _context = context;
    private readonly SharedReturns _shared = new(context);

    public bool Observes(Controller controller) => _shared.Observes(controller);

    public void Visit(in Switching switching) => _shared.Visit(switching);

    public IEnumerable<Finding> Findings() => _context.Manual is not null
        ? _shared.Findings(Rule)
        :
        [
            .. SupplyVoltage.Findings(Rule, _context.Site),
            .. WiredOutput.AllOf(_context.Site).Select(Judge).OfType<Finding>(),
            .. _shared.Findings(Rule),
        ];

    public IEnumerable<Gap> NotChecked() =>
        Gap.Each(Concern.Wires, "wires", WiredOutput.AllOf(_context.Site).Where(IsAsked).Select(wired => (Thing.Of(wired), WireVolts.LacksFor(wired))));

    /// <summary>Of a pump or a relay nobody has to know the wire, unless something of it is written.</summary>
    private static bool IsAsked(WiredOutput wired) =>
        wired.Zone is { } zone ? !zone.IsSpare : wired.Wire is not null || wired.MinimumVoltage is not null;

    private static Finding? Judge(WiredOutput wired)
    {
        if (WireVolts.Of(wired) is not { } volts || volts.Reaches(volts.Wire)) return null;
        return wired.IsLatching && volts.IsTooWeakFromFull ? null : FindingFor(wired, volts);
    }

    private static Finding FindingFor(WiredOutput wired, WireVolts volts) =>
        Finding.At(Rule, wired.Wire!.Value.Place,
            $"{Heading(wired)} gets {Under(volts.At(volts.Wire), wired.MinimumVoltage!.Value.InBase)} V, needs {wired.MinimumVoltage}",
            $"loses {Volts(volts.Lost)} V") with
        {
            Others = [new Label(wired.MinimumVoltage!.Value.Place, $"needs {wired.MinimumVoltage}")],
            Details = volts.Sum,
            Excess = wired.MinimumVoltage!.Value.InBase - volts.At(volts.Wire),
            Help = Help(volts),
        };

    /// <summary><c>valve of zone far</c>, or <c>pump lift</c>.</summary>
    public static string Heading(WiredOutput wired) => wired.Valve is null ? wired.KindAndName : $"valve of {wired.KindAndName}";

    /// <summary>The thinnest section of the tables that does, and how long the present one may be, in whole units of its length.</summary>
    private static string Help(WireVolts volts)
    {
        var (wire, unit) = (volts.Wire, volts.Wire.Length.Unit);
        var longest = Bisection.First(
            1, (long)Math.Ceiling(wire.Length.Value), units => !volts.Reaches(wire with { Length = new Quantity(units, unit) }))!.Value - 1;
        if (longest == 0)
            return "Use a valve that needs less, or a higher voltage: no wire is enough.";
        var thicker = Electricity.Thicker(wire).ToArray();
        var most = $"A wire of {wire.Kind} may be {new Quantity(longest, unit)} long.";
        if (thicker.Where(volts.Reaches).Take(1).ToArray() is [var enough]) return $"Lay a wire of {enough.Kind} or thicker. {most}";
        return thicker.Length > 0
            ? $"Shorten the wire, or lay a second conductor beside it: no single wire of up to {thicker[^1].Kind} is enough. {most}"
            : $"Shorten the wire, or lay a second conductor beside it. {most}";
    }

    /// <summary>A voltage to a tenth, or more where it would look like the one that it is below.</summary>
    public static string Under(decimal volts, decimal needed) =>
        Enumerable.Range(1, 3).Select(digits => Phrases.Number(volts, digits))
            .FirstOrDefault(words => decimal.Parse(words, CultureInfo.InvariantCulture) < needed) ?? Volts(volts);

    /// <summary>To a thousandth, without zeros at the end.</summary>
    public static string Volts(decimal volts) => Phrases.Number(volts, 3).TrimEnd('0').TrimEnd('.');
}
