namespace WaterScript.Tests.Hostile;

public static partial class HostileSites
{
    private const string Power = "power { continuous 500 mA at 5 V; peak 1 A; capacitor 4700 uF at 12 V; recharge 1 W efficiency 80 % }";

    /// <summary>What is hard to read, or shows many findings.</summary>
    private static Dictionary<string, string> Reading() => new()
    {
        ["braces"] = new string('{', 4_900) + new string('}', 4_900),
        ["open-braces"] = Head + Each(2_000, _ => "a {\n"),
        ["closing-braces"] = Head + Each(2_400, _ => " }\n"),
        ["one-long-row"] = OneZone + "group g = " + string.Concat(Enumerable.Repeat("a, ", 3_000)) + "a\n",
        ["long-label"] = OneZone.Replace("zone a", $"zone a \"{new string('x', 9_000)}\"")
            + "schedule x { every day; start at 00:00; steps { water a for 1 s } }\n",
        ["unknown-names"] = Head + Each(160, i => $"zone name-of-a-zone-{i} {{ output {i + 1} }}\n") + "schedule x { every day; start at 00:00; steps {\n"
            + Each(90, i => $"water nmae-of-a-zoen-{i} for 1 s\n") + "} }\n",
        ["same-names"] = Head + Each(800, _ => "zone a { }\n"),
        ["operators"] = OneZone + Each(1_500, _ => "+ = ,\n"),
        ["one-line"] = OneZone + string.Concat(Enumerable.Repeat("let x = 1 s;", 800)),
        ["comments"] = OneZone + "schedule x { every day; start at 00:00; steps { water a for 1 s\n" + Each(1_500, _ => "# x\n") + "} }\n",
        ["short-runs"] = Head + Each(50, i => $"zone a{i} {{ output {i + 1}; flow 2 L/min; method spray }}\n")
            + "group g = all\nschedule x { every day; start at 00:00; steps {\n"
            + Each(130, i => $"water {Names(5)} for {i + 1} s\n").Replace("group", "group") + "} }\n",
        ["short-runs-of-all"] = Head + Each(60, i => $"zone a{i} {{ output {i + 1}; method spray }}\n") + "schedule x { on mon; start at 00:00; steps {\n"
            + Each(300, i => $"water all for {(i % 90) + 1} s\n") + "} }\n",
        ["short-runs-of-all-often"] = Head + Each(60, i => $"zone a{i} {{ output {i + 1}; method spray }}\n")
            + "schedule x { every day; start at 00:00; steps {\n" + Each(300, i => $"water all for {(i % 9) + 1} s\n") + "} }\n",
    };

    /// <summary>What rules look at closely.</summary>
    private static Dictionary<string, string> Judged() => new()
    {
        ["restrictions"] = Zones(20) + Each(70, i =>
            $"restriction r{i} {{ allow between {Time(i)} and {Time(i + 400)}; at most {(i % 5) + 1} days a week; at most 1 zone at a time }}\n")
            + "schedule x { every day; start at 00:00; repeat every 5 min until 24:00; steps { water all for 10 s } }\n",
        ["restriction-of-hours"] = Zones(5) + "restriction r {\n" + Each(150, i => $"allow between {Time(i * 9)} and {Time((i * 9) + 1)}\n")
            + "}\nschedule x { every day; start at 00:00; repeat every 1 min until 24:00; steps { water all for 5 s } }\n",
        ["restriction-on-long-runs"] = Zones(20)
            + Each(60, i => $"restriction r{i} {{ allow between sunset + {i + 1} min and sunrise; at most {i + 1} min a day per zone }}\n")
            + "schedule x { every day; start at 00:00; repeat every 1 day for 300 passes; steps { water a0 + a1 + a2 + a3 + a4 for 60 days } }\n",
        ["restriction-exempt"] = Zones(10) + "restriction r { at most 1 day a week; at most 1 min a day\n"
            + Each(150, i => $"exempt a{i % 10} from 2026-01-01 for {i + 1} days\n")
            + "}\nschedule x { every day; start at 00:00; repeat every 1 min until 24:00; steps { water all for 3 s } }\n",
        ["tank"] = Head.Replace("flow 20 L/min", "flow 20 L/min; tank 1 m3; refill 1 L/min; reserve 100 L; daily 100 L")
            + Each(60, i => $"zone a{i} {{ output {i + 1}; flow {i + 1} L/min }}\n")
            + "pump p { output 190; load 1 mA; at most 1 starts an hour }\n"
            + "schedule x { every day; start at 00:00; repeat every 4 min until 24:00; steps { water all for 2 s } }\n",
        ["tanks-in-a-row"] = Head.Replace("supply tap { flow 20 L/min }", "supply t0 { flow 20 L/min; tank 1 m3 }\n"
            + Each(39, i => $"supply t{i + 1} {{ flow 20 L/min; tank 1 m3; fed-by t{i} }}\n"))
            + Each(40, i => $"zone a{i} {{ output {i + 1}; flow 2 L/min; supply t{i} }}\n")
            + "schedule x { every day; start at 00:00; repeat every 5 min until 24:00; steps { water all for 2 s } }\n",
        ["pulses"] = Head.Replace("outputs 200", $"outputs 200; stagger 5 s; {Power}")
            + "valve v latching { pulse 50 ms; coil 20 ohm; minimum-voltage 6 V }\n"
            + Each(60, i => $"zone a{i} {{ output {i + 1}; valve v; flow 1 L/min }}\n")
            + $"group g = {Names(60).Replace(",", " +")}\n"
            + "schedule x { every day; start at 00:00; repeat every 2 min until 24:00; steps { water g for 30 s } }\n",
        ["overlapping-schedules"] = Zones(40)
            + Each(58, i => $"schedule s{i} {{ every day; start at {Time(i)}; repeat every 15 min until 24:00; steps {{ water {Names(10)} for 50 s }} }}\n"),
        ["demand-of-all"] = Head
            + "climate { jan et 1 mm/day; feb et 1 mm/day; mar et 2 mm/day; apr et 3 mm/day; may et 4 mm/day; jun et 5 mm/day; "
            + "jul et 6 mm/day; aug et 6 mm/day; sep et 4 mm/day; oct et 3 mm/day; nov et 2 mm/day; dec et 1 mm/day }\n"
            + Each(60, i => $"zone a{i} {{ output {i + 1}; flow 2 L/min; area 20 m2; soil clay; slope 9 %; plants tomato; method spray }}\n")
                + "schedule x { every day; start at 00:00; repeat every 10 min until 24:00; steps { water all for 8 s } }\n",
        ["demand-far"] = Head.Replace("2026-01-01", "1900-01-01")
            + "climate { jan et 1 mm/day; feb et 1 mm/day; mar et 2 mm/day; apr et 3 mm/day; may et 4 mm/day; jun et 5 mm/day; "
            + "jul et 6 mm/day; aug et 6 mm/day; sep et 4 mm/day; oct et 3 mm/day; nov et 2 mm/day; dec et 1 mm/day }\n"
            + Each(80, i => $"zone a{i} {{ output {i + 1}; flow 2 L/min; area 20 m2; soil loam; plants tomato }}\n")
                + "schedule x { every day; from 1900-01-01 to 2199-01-01; start at 00:00; steps { water all for 8 s } }\n",
        ["change-over-too-short"] = Zones(80)
            + Each(40, i => $"schedule s{i} {{ every {(i % 3) + 1} days; start at {Time(i * 3)}; steps {{ water {Names(20)} for 1 min }} }}\n"),
        ["rests"] = Head + Each(60, i => $"zone a{i} {{ output {i + 1}; rest 1 h; never-dry-for 1 h; longest 1 s }}\n")
            + Each(60, i => $"schedule s{i} {{ every day; start at {Time(i * 7)}; steps {{ water all for 20 s }} }}\n"),
        ["shared-outputs"] = Head + Each(150, i => $"zone a{i} {{ output 1; wire 90 m 1 mm2 }}\n")
            + "schedule x { every day; start at 00:00; repeat every 10 min until 24:00; steps { water all for 1 s } }\n",
    };
}
