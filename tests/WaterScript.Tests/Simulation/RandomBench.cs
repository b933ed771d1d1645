using System.Globalization;
using System.Text;

namespace WaterScript.Tests.Simulation;

/// <summary>Sites on a battery, by chance: one controller or two, valves of all kinds, a pump, a panel, dates on which it is charged.</summary>
internal static class RandomBench
{
    private static readonly string[] Months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    public static string Of(int seed)
    {
        var random = new Random(seed);
        bool Chance(int percent) => random.Next(100) < percent;
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');

        var (month, day) = (random.Next(1, 13), random.Next(1, 29));
        var place = Chance(50) ? ("Europe/Lisbon", "N 8.1 W") : ("America/New_York", "N 74.2 W");
        Line($"site bench {{ timezone {place.Item1}; effective 2026-{month:00}-{day:00}; location {random.Next(25, 58)}.5 {place.Item2} }}");
        Line($"climate {{");
        foreach (var name in Months) Line($"  {name} {random.Next(-12, 15)} C to {random.Next(16, 34)} C");
        Line($"}}");
        var hasTwo = Chance(40);
        var power = Power(random, Chance);
        Line($"controller box {{ outputs 4; stagger {random.Next(0, 3)} s; power {{");
        Line($"  battery {random.Next(1, 9)}.5 Ah at 12 V");
        if (Chance(50)) Line($"  usable {random.Next(20, 95)} %");
        if (Chance(50)) Line($"  cold-loss 0.{random.Next(1, 9)} % per C");
        var tilt = Chance(50) ? $" tilt {random.Next(0, 91)} deg" : "";
        if (Chance(60)) Line($"  solar-panel {random.Next(1, 12)} W{tilt}{(Chance(50) ? " efficiency 75 %" : "")}");
        if (Chance(30)) Line($"  renewed on {(day + 9) % 28 + 1} {Months[month - 1]}, {(day + 9) % 28 + 1} {Months[month % 12]}");
        if (Chance(80)) Line($"  standby {random.Next(2, 40)} mA");
        Line($"  {power} }} }}");
        if (hasTwo) Line($"controller shed {{ outputs 4; stagger 1 s; power {{ battery of box; standby {random.Next(1, 9)} mA; {Power(random, Chance)} }} }}");
        Line($"valve hold non-latching {{ holding {random.Next(80, 400)} mA }}");
        Line($"valve click latching {{ pulse {random.Next(20, 200)} ms; coil {random.Next(4, 40)} ohm }}");
        var zones = random.Next(1, 4);
        for (var zone = 1; zone <= zones; zone++)
            Line($"zone z{zone} {{ output {zone} of {(hasTwo && zone > 1 ? "shed" : "box")}; valve {(Chance(50) ? "hold" : "click")} }}");
        if (Chance(40)) Line($"pump lift {{ output 4 of box; zones z1; load {random.Next(50, 900)} mA; starts 5 s before zones; stops 20 s after zones }}");
        Line($"schedule morning {{ every {random.Next(1, 4)} days; start at {random.Next(0, 24):00}:{random.Next(0, 60):00}");
        if (Chance(40)) Line($"  repeat every {random.Next(40, 300)} min for {random.Next(2, 5)} passes");
        Line($"  steps {{ water {string.Join(", ", Enumerable.Range(1, zones).Select(zone => $"z{zone}"))} for {random.Next(1, 12)} min }} }}");
        return text.ToString();
    }

    private static string Power(Random random, Func<int, bool> chance) =>
        (chance(40) ? "continuous 2 A at 24 V; " : "")
        + (chance(60) ? FormattableString.Invariant($"capacitor {random.Next(500, 6000)} uF at 24 V") : "peak 4 A")
        + (chance(50) ? "; recharge 1.5 W efficiency 70 %" : "");
}
