using FsCheck;
using FsCheck.Fluent;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>A site that nobody thought of, with a conflict put into it, is never found fine.</summary>
public sealed class CertainConflictTests
{
    private static readonly int SitesEach = Samples.Of(40);

    private static readonly Dictionary<string, Func<Sketch, Sketch>> Conflicts = new()
    {
        ["zone-twice"] = sketch => sketch.AndOneScheduleTwice(),
        ["schedules-overlap"] = sketch => sketch.WithValves().With("controller", "schedules never-overlap").AndOneScheduleTwice(),
        ["longer-than-longest"] = sketch =>
            sketch.Without("valve hum").With("zone", "shortest 1 s").With("zone", "longest 1 s").And("valve hum non-latching { inrush 1 A; holding 1 A }"),
        ["forbidden-day"] = sketch => sketch.And("restriction never { allow on 2000-01-01 }"),
        ["daily-time-limit"] = sketch => sketch.And("restriction never { at most 1 s a day }"),
        ["flow-over-supply"] = sketch => sketch.With("zone", "flow 100 L/min").With("supply", "flow 1 L/min"),
        ["daily-volume"] = sketch => sketch.With("zone", "flow 100 L/min").With("supply", "daily 1 L"),
        ["holding-current"] = sketch => sketch.WithValves().With("zone", "valve hum").With("controller", "power { continuous 1 mA at 24 V; peak 1 A }"),
        ["inrush-current"] = sketch => sketch.WithValves().With("zone", "valve hum").With("controller", "power { continuous 1 mA at 24 V; peak 2 mA }"),
        ["change-over-too-short"] = sketch =>
            Undisturbed(sketch, "").And("schedule late { every day; scale 100 %; start at 12:05:30; steps { water zy for 5 min } }"),
        ["rest-too-short"] = sketch =>
            Undisturbed(sketch, "; rest 1 h").And("schedule late { every day; scale 100 %; start at 12:50; steps { water zx for 5 min } }"),
        ["zones-at-a-time"] = sketch =>
            Undisturbed(sketch, "").And("schedule late { every day; scale 100 %; start at 12:04:59; steps { water zy for 5 min } }")
            .And("restriction one { at most 1 zone at a time }"),
        ["pass-overlap"] = sketch => Undisturbed(sketch, "")
            .And("schedule late { every day; scale 100 %; start at 12:00; repeat every 4 min 59 s for 2 passes; steps { water zy for 5 min } }"),
    };

    public static TheoryData<string> Rules => [.. Conflicts.Keys];

    [Theory]
    [MemberData(nameof(Rules))]
    public void A_conflict_is_found_on_any_site(string slug)
    {
        var found = 0;
        var sketches = Arb.From(Gen.Choose(0, int.MaxValue).Select(number => Conflicts[slug](RandomSketch.Of(number))), sketch => sketch.Smaller());
        Prop.ForAll(sketches, sketch => found += IsFound(sketch, slug) ? 1 : 0).Check(Config.QuickThrowOnFailure.WithMaxTest(SitesEach).WithReplay(7, 2027));
        Assert.True(found > (Samples.AreAll ? SitesEach / 2 : 0), $"only {found}");
    }

    /// <summary>False where nothing waters; where something does, it is found.</summary>
    private static bool IsFound(Sketch sketch, string slug)
    {
        if (RandomRunsTests.Read(sketch.Text, out _) is not { } site) return false;
        var horizon = Horizon.DaysFrom(site.Effective, 4);
        var twin = site.Schedules.FirstOrDefault(schedule => schedule.Name == "twin");
        if (!Timetable.Of(site, horizon).Runs().Any(run => run.Seconds > 2 && (twin is null || run.Schedule == twin.Index))) return false;
        Assert.Contains(Linter.Check(site, horizon).Findings, finding => finding.Rule.Slug == slug && finding.Happens!.First.Date <= horizon.Until);
        return true;
    }

    /// <summary>Two zones of their own, on a supply with a gap, of which one is watered at noon, whatever else there is.</summary>
    private static Sketch Undisturbed(Sketch sketch, string property) => sketch.Without("hold").Without("closed")
        .And("supply sx { change-over gap 1 min }")
        .And($"zone zx {{ output 13 of c0; supply sx{property} }}")
        .And("zone zy { output 12 of c0; supply sx }")
        .And("schedule noon { every day; scale 100 %; start at 12:00; steps { water zx for 5 min } }");
}
