namespace WaterScript.Tests.Hostile;

public static partial class HostileSites
{
    /// <summary>Lists of zones, groups of groups, names that rest on names.</summary>
    private static Dictionary<string, string> Lists() => new()
    {
        ["groups-doubled"] = Zones(2) + "group g0 = a0, a1\n" + Each(15, i => $"group g{i + 1} = g{i}, g{i}\n")
            + Each(100, i => $"schedule s{i} {{ manual; steps {{ water g15 for 1 s }} }}\n"),
        ["groups-doubled-in-steps"] = Zones(2) + "group g0 = a0, a1\n" + Each(14, i => $"group g{i + 1} = g{i}, g{i}\n") + "sequence q {\n"
            + Each(300, _ => "water g14 for 1 s\n") + "}\nschedule x { on mon; start at 00:00; steps { water a0 for 1 s } }\n",
        ["groups-of-plus"] = Zones(100) + $"group g0 = {Names(100).Replace(",", " +")}\n"
            + Each(30, i => $"schedule s{i} {{ every day; start at 00:00; repeat every 10 s for 5000 passes; steps {{ water g0 for 8 s }} }}\n"),
        ["zones-in-one-line"] = Zones(170)
            + "schedule x { every day; start at 00:00; repeat every 10 min until 24:00; steps { water all, all, all for 1 s } }\n",
        ["lets-and-zones"] = Zones(100) + Each(100, i => $"let l{i} = {i + 1} s\n")
            + "schedule x { every day; start at 00:00; repeat every 2 min until 24:00; steps {\n" + Each(100, i => $"water a{i} for l{i}\n") + "} }\n",
        ["lets-in-lets"] = OneZone + "let d0 = 2026-01-01\n" + Each(38, i => $"let d{i + 1} = d{i} + 200 weeks\n")
            + Each(60, i => $"schedule s{i} {{ every day; from d{i % 39} to d38; start at 00:00; steps {{ water a for 1 s }} }}\n"),
        ["all-plus-all"] = Zones(110) + $"group g = {Names(110).Replace(",", " +")}\n"
            + "schedule x { every day; start at 00:00; repeat every 5 s until 24:00; steps { water g for 5 s } }\n",
        ["change-overlap"] = Zones(100).Replace("flow 20 L/min }", "flow 20 L/min; change-over overlap 5 s }") + $"group g = {Names(100).Replace(",", " +")}\n"
            + "schedule x { on mon; start at 00:00; steps { repeat 990 times { water g for 5 s } } }\n",
        ["cycle-seconds"] = OneZone + Each(40, i => $"schedule s{i} {{ on mon; start at 00:00; steps {{ cycle 1 s soak 1 s {{ water a for 6 h }} }} }}\n"),
        ["cycle-many-parts"] = Zones(100) + "schedule x { every day; start at 00:00; steps { cycle 1 s soak 1 h {\n" + Each(5, _ => "water all for 1 min\n")
            + "} } }\n",
        ["scale-tables"] = OneZone.Replace("effective 2026-01-01", "effective 2026-01-01; scale z") + "scale z {\n"
            + Each(230, i => $"since {2026 + (i / 12)}-{(i % 12) + 1:00}-01 {100 + i} %\n")
            + "}\nschedule x { every day; start at 00:00; steps { repeat 99999 times { water a for 1 s } } }\n",
        ["scale-by-month"] = OneZone.Replace("effective 2026-01-01", "effective 2026-01-01; scale z")
            + "scale z { jan 101 %; feb 102 %; mar 103 %; apr 104 %; may 105 %; jun 106 %; jul 107 %; aug 108 %; sep 109 %; oct 110 %; nov 111 %; dec 112 % }\n"
            + Each(80, i => $"schedule s{i} {{ days 1 of month; start at 00:00; steps {{ repeat 90000 times {{ water a for 5 s }} }} }}\n")
                .Replace("{ days", "{ on days"),
        ["pumps-of-all"] = Zones(60) + Each(15, i => $"pump p{i} {{ output {i + 101}; zones {Names(60)}; load 1 mA }}\n")
            + "schedule x { every day; start at 00:00; repeat every 1 min until 24:00; steps { water all for 1 s } }\n",
    };

    /// <summary>What takes water away: holds, closed seasons, cuts; and extras.</summary>
    private static Dictionary<string, string> Takers() => new()
    {
        ["hundreds-of-holds"] = OneZone + Each(110, i => $"hold a from {2026 + (i % 2)}-0{(i % 9) + 1}-01 for {i + 1} days because \"x\"\n")
            + "schedule x { every day; start at 00:00; repeat every 20 s until 24:00; steps { water a for 1 s } }\n",
        ["holds-on-long-plan"] = OneZone + Each(110, i => $"hold a from {2080 + i}-01-01 for {i + 1} days because \"x\"\n")
            + "schedule x { every day; start at 00:00; steps { repeat 80000 times { water a for 1 s } } }\n",
        ["hundreds-of-closed"] = OneZone + Each(180, i => $"closed from {(i % 28) + 1} jan to {(i % 28) + 1} feb because \"x\"\n")
            + Each(20, i => $"schedule s{i} {{ every day; start at 00:00; repeat every 2 min until 24:00; steps {{ water a for 1 s }} }}\n"),
        ["closed-all-year"] = OneZone + "closed from 1 jan to 31 dec because \"x\"\n"
            + Each(60, i =>
            $"schedule s{i} {{ every day; start at 00:00; repeat every 5 s until 24:00; steps {{ repeat 100 times {{ water a for 1 s }} }} }}\n"),
        ["hundreds-of-extras"] = OneZone
            + Each(110, i => $"extra 2026-0{(i % 9) + 1}-1{i % 10} {Time(i * 13)} because \"x\" {{ repeat 9000 times {{ water a for 1 s }} }}\n"),
        ["cuts"] = OneZone + Each(70, i => $"schedule s{i} {{ every day; start at 00:00; repeat every 9 s until 24:00; cut off at {Time(i + 1)}; "
            + "steps { repeat 100 times { water a for 9 s } } }\n"),
        ["accepts"] = OneZone + Each(80, _ => "accept short-run because \"x\"\n")
            + Each(70, i => $"schedule s{i} {{ every day; start at 00:00; steps {{ water a for {i + 1} s }} }}\n"),
    };
}
