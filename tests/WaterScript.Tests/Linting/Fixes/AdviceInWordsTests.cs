using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Cases;
using WaterScript.Tests.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>
/// Advice that is a sentence with numbers and no edit is followed by hand, literally: the file reads, the finding is gone, and no error or warning is there
/// that was not before. What is written in place of what stands behind each row; several changes are several lines.
/// </summary>
public class AdviceInWordsTests
{
    [Theory]
    [InlineData("below-roots/edge", "Water it with 6.5 mm at a time", "water mint for 40 min => water mint with 6.5 mm")]
    [InlineData("capacitor-too-small/edge", "Use a capacitor of 3607 uF or more.", "3606 uF at => 3607 uF at")]
    [InlineData("clocks-apart/edge", "Leave 40 s or more between them, with a pause or a later start.", "pause 39 s => pause 40 s")]
    [InlineData("daily-volume/edge", "Cut the run times of that day to 99 %", "on fri; => on fri; scale 99 %;", "every day; => every day; scale 99 %;")]
    [InlineData("ends-late/edge", "Start earlier, or write `finish by sunrise + 1 h`.", "finish by sunrise + 2 h 1 min => finish by sunrise + 1 h")]
    [InlineData("flow-over-supply/long-overlap", "Write `change-over overlap 5 s` or less in supply tap", "overlap 6 s => overlap 5 s")]
    [InlineData("flow-over-supply/long-overlap", "or a `change-over gap`.", "overlap 6 s => gap 6 s")]
    [InlineData("flow-under-minimum/fires", "Water it together with lawn, which makes 22.0 L/min",
        "water lawn for 10 min => water lawn + pots for 10 min", "water pots for 20 min => ")]
    [InlineData("flow-under-minimum/edge", "Water it together with vines, which makes 10.0 L/min", "water sill for 11 s => water sill + vines for 11 s")]
    [InlineData("holding-current/recharge", "a `recharge` of 0.50 W or less.", "recharge 1 W => recharge 0.50 W")]
    [InlineData("inrush-current/recharge", "a `recharge` of 0.50 W or less.", "recharge 1 W => recharge 0.50 W")]
    [InlineData("longer-than-longest/touching", "Leave a pause between its runs after 40 s at most",
        "{ water vines for 40 s } => { water vines for 40 s; pause 1 s }")]
    [InlineData("longer-than-longest/touching", "Leave a pause between its runs after 15 min at most", "for 6 min; => for 6 min; pause 1 s;")]
    [InlineData("longer-than-longest/edge", "Water it for 15 min at a time", "water berries for 15 min 1 s => water berries for 15 min")]
    [InlineData("numbers-clash/edge", "Write a `recharge` of 3 W or less", "recharge 3.1 W => recharge 3 W")]
    [InlineData("numbers-clash/edge", "Write a `refill` of 1.99 L/min or less.",
        "fed-by odd; tank 1 m3; refill 2 L/min => fed-by odd; tank 1 m3; refill 1.99 L/min")]
    [InlineData("pump-before-master/fires", "Start pump lift 3 s before zones or later, and stop it earlier.",
        "starts 5 s before => starts 3 s before", "stops 4 s after => stops 3 s after")]
    [InlineData("pump-before-master/edge", "Stop pump lift 3 s after zones or earlier.", "stops 4 s after => stops 3 s after")]
    [InlineData("pump-clock/edge", "let it stop 20 s or more after its zones, with a `bypass` for that time.", "stops 19 s after => stops 20 s after")]
    [InlineData("pump-clock/edge", "Wire boost to controller fence", "output 9 of barn => output 9 of fence")]
    [InlineData("pump-clock/fires", "let it start 30 s or more before its zones and stop 30 s or more after them",
        "starts 20 s before => starts 30 s before", "stops 20 s after => stops 30 s after")]
    [InlineData("pump-never-runs/edge", "water for longer than 4 min.", "{ water tubs for 4 min } => { water tubs for 4 min 1 s }")]
    [InlineData("pump-never-runs/edge", "water for longer than 1 min 10 s.", "water trays for 70 s => water trays for 71 s")]
    [InlineData("pump-without-flow/edge", "write `bridges gaps up to 10 s` or less", "pump ram { output 9; supply pond; load 60 mA; bridges gaps up to 1 min }"
        + " => pump ram { output 9; supply pond; load 60 mA; bridges gaps up to 10 s }")]
    [InlineData("pump-without-flow/long-lead", "Write `starts 10 s before zones` or less", "starts 5 min before => starts 10 s before")]
    [InlineData("pump-without-flow/long-lead", "give the supply a `bypass`", "flow 20 L/min } => flow 20 L/min; bypass }")]
    [InlineData("pump-without-flow/edge-lead", "Write `stops 10 s after zones` or less", "stops 11 s after => stops 10 s after")]
    [InlineData("scaled-dose/fires", "Write `scale 100 %` in schedule feeding", "scale 60 % => scale 100 %")]
    [InlineData("scaled-dose/edge", "Write `scale 100 %` in schedule twice", "scale 198 % => scale 100 %")]
    [InlineData("soak-too-short/fires", "Start it 12 min later.", "start at 07:00 => start at 07:12")]
    [InlineData("soak-too-short/edge", "Start it 1 s later.", "start at 07:11:59 => start at 07:12:00")]
    [InlineData("tank-runs-dry/edge", "Water for 99 % of the time", "berries for 66 min 44 s => berries for 66 min 3 s")]
    [InlineData("tank-runs-dry/edge", "refill at 5.1 L/min or more.", "supply trough { flow 20 L/min; tank 1000 L; refill 5 L/min }"
        + " => supply trough { flow 20 L/min; tank 1000 L; refill 5.1 L/min }")]
    [InlineData("uneven-together/edge", "an amount such as `with 10 mm`.", "water slow, twice for 20 min => water slow, twice with 10 mm")]
    [InlineData("unlikely-value/edge", "Write it in ms, such as `pulse 50 ms`.", "pulse 1000 ms => pulse 50 ms")]
    [InlineData("unlikely-value/edge", "write `longest 3 h 1 s` in the zone.", "zone spray-b { output 2; => zone spray-b { output 2; longest 3 h 1 s;")]
    [InlineData("unlikely-value/fires", "write `longest 8 h` in the zone.", "{ output 1; => { output 1; longest 8 h;")]
    [InlineData("vacuum-breaker-hours/edge", "Water for 12 h at most in 24 h", "beds for 6 h 1 min => beds for 6 h")]
    [InlineData("voltage-drop/flexible", "Lay a wire of 2.5 mm2 flexible or thicker.", "191 m 1.5 mm2 => 191 m 2.5 mm2")]
    [InlineData("voltage-drop/flexible", "A wire of 1.5 mm2 flexible may be 174 m long.", "191 m => 174 m")]
    [InlineData("window-too-short/edge", "Take 1 s off", "south for 4 h 1 s => south for 4 h")]
    [InlineData("window-too-short/fires", "Take 48 min off", "for 4 h } => for 3 h 36 min }")]
    [InlineData("rest-too-short/edge", "Start it 1 s later.", "start at 08:00, 08:40 => start at 08:00, 08:40:01")]
    [InlineData("change-over-too-short/edge", "Start the later one 1 s later or more", "start at 06:20:04 => start at 06:20:05")]
    public void What_a_case_is_advised_does_it(string name, string advice, params string[] changes) =>
        Judge(CaseFile.Source($"tests/Cases/rules/{name}").Text, name[..name.IndexOf('/', StringComparison.Ordinal)], advice, changes);

    /// <summary>Sites in which what is written is not what comes of it: a trim or a scale stands between.</summary>
    [Theory]
    [InlineData("short-run", "", "zone a { output 1; method spray; trim 50 % }", "every day; start at 06:00; steps { water a for 1 min }",
        "Water for 3 min 59 s or more", "for 1 min => for 3 min 59 s")] // half of it is 119.5 s, 2 min
    [InlineData("short-run", "", "zone a { output 1; method spray; trim 130 % }", "every day; scale 70 %; start at 06:00; steps { water a for 1 min }",
        "Water for 2 min 12 s or more", "for 1 min => for 2 min 12 s")]
    [InlineData("short-run", "", "zone a { output 1; method spray }", "every day; start at 06:00; steps { water a for 1 min }",
        "Water for 2 min or more", "for 1 min => for 2 min")]
    [InlineData("longer-than-longest", "", "zone a { output 1; longest 10 min; trim 120 % }", "every day; start at 06:00; steps { water a for 10 min }",
        "Water it for 8 min 20 s at a time", "for 10 min => for 8 min 20 s")]
    [InlineData("longer-than-longest", "scale y { jan 50 %; jul 150 % }", "zone a { output 1; longest 10 min }",
        "every day; scale y; start at 06:00; steps { water a for 10 min }", "Water it for 6 min 40 s at a time",
        "water a for 10 min => water a for 6 min 40 s")]
    [InlineData("window-too-short", "restriction r { allow between 22:00 and 06:00 }", "zone a { output 1; trim 50 % }",
        "on mon; start at 22:00; steps { water a for 18 h }", "Take 2 h 2 s off", "for 18 h => for 15 h 59 min 58 s")]
    [InlineData("window-too-short", "restriction r { allow between 22:00 and 06:00 }", "zone a { output 1 }",
        "on mon; scale 50 %; start at 22:00; steps { water a for 18 h }", "Take 2 h 2 s off", "for 18 h => for 15 h 59 min 58 s")]
    [InlineData("pump-never-runs",
        "supply well { flow 20 L/min; bypass }\npump lift { output 7; supply well; load 60 mA; starts 4 min after zones; stops 30 s after zones }",
        "zone a { output 1; flow 6 L/min; trim 50 % }", "every day; start at 06:00; steps { water a for 4 min }",
        "water for longer than 8 min", "for 4 min } => for 8 min 1 s }")]
    [InlineData("below-roots", "plants herbs { roots 10 cm; allowed-depletion 80 % }",
        "zone a { output 1; rate 10 mm/h; soil sandy-loam; plants herbs; trim 150 % }",
        "on mon; start at 05:00; steps { water a for 2 h }", "Water it with 6.9 mm at a time", "for 2 h => with 6.9 mm")] // 0.8 · 13 mm / 1.5
    [InlineData("consecutive-days", "", "zone a { output 1 }", "on odd days; start at 06:00; steps { water a for 10 min }",
        "Add two lines: `except days 31 of month` and `except 29 feb`.", "on odd days; => on odd days; except days 31 of month; except 29 feb;")]
    [InlineData("pass-overlap", "", "zone a { output 1 }", "every day; start at 06:00, 06:03; steps { water a for 10 min }",
        "Move one of the starts by 7 min or more", "06:00, 06:03 => 06:00, 06:10")]
    [InlineData("pass-overlap", "", "zone a { output 1 }", "every day; start at 06:00; repeat every 5 min for 3 passes; steps { water a for 10 min }",
        "Repeat every 10 min", "every 5 min => every 10 min")]
    [InlineData("before-effective", "", "zone a { output 1 }", "on sun; finish by 00:05; steps { water a for 10 min }",
        "Write `effective 2026-02-28`", "effective 2026-03-01 => effective 2026-02-28")]
    [InlineData("before-effective", "", "zone a { output 1 }", "every day; finish by 00:05; steps { water a for 10 min }",
        "Accept it", "every day; => every day; accept before-effective because \"one night\";")]
    [InlineData("frost-months", "climate { jan 2 C to 8 C; jul 14 C to 25 C }", "zone a { output 1 }",
        "every day; start at 06:00; steps { water a for 10 min }",
        "Give it a season such as `from 1 feb to 31 dec`", "every day; => every day; from 1 feb to 31 dec;")]
    [InlineData("frost-months", "climate { jun 1 C to 8 C; jul 0 C to 8 C; oct 3 C to 9 C }", "zone a { output 1 }",
        "every day; start at 06:00; steps { water a for 10 min }", "such as `from 1 nov to 31 may`", "every day; => every day; from 1 nov to 31 may;")]
    [InlineData("frost-months", "climate { jan 2 C to 8 C; jul 14 C to 25 C }", "zone a { output 1 }", "on 4 jan; start at 06:00; steps { water a for 10 min }",
        "Move it to a month without frost, or delete it.", "on 4 jan; => on 4 jul;")]
    public void What_a_site_is_advised_does_it(string rule, string blocks, string zone, string schedule, string advice, params string[] changes) =>
        Judge($"site s {{ timezone Etc/UTC; effective 2026-03-01 }}\n{blocks}\n{zone}\nschedule s {{ {schedule} }}\n", rule, advice, changes);

    private static void Judge(string text, string rule, string advice, string[] changes)
    {
        var site = Checked.Of(text);
        var advised = site.Findings.FirstOrDefault(finding => finding.Rule.Slug == rule && finding.Help.Contains(advice, StringComparison.Ordinal));
        Assert.True(advised is not null, string.Join('\n', site.Findings.Where(finding => finding.Rule.Slug == rule).Select(finding => finding.Help)));
        var after = Checked.Of(changes.Aggregate(text, Changed));
        Assert.NotNull(after.Lint);
        Assert.DoesNotContain(after.Findings, finding => finding.Rule.Slug == rule && finding.Heading == advised!.Heading);
        Assert.Empty(Grave(after).Except(Grave(site)));
    }

    private static string Changed(string text, string change)
    {
        var parts = change.Split(" => ");
        Assert.True(parts.Length == 2, change);
        Assert.Contains(parts[0], text, StringComparison.Ordinal);
        return text.Replace(parts[0], parts[1], StringComparison.Ordinal);
    }

    private static IEnumerable<string> Grave(CheckedSite site) =>
        site.Findings.Where(finding => finding.Severity > Severity.Advice).Select(finding => $"{finding.Rule.Slug}: {finding.Heading}");
}
