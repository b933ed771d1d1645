using WaterScript.Answers.Diff;
using WaterScript.Text.Lines;
using WaterScript.Timetables;

namespace WaterScript.Fuzz.Stages;

/// <summary>What changes between two versions: nothing between a site and itself, and the same from either side.</summary>
internal sealed class DiffStage : IStage
{
    private const int FewDays = 90;

    /// <summary>A comparison of all dates may take some seconds, so an input has one kind of them or the other, by its salt.</summary>
    private const int WholeWithItself = 0;
    private const int WholeWithOther = 2;
    private const int Kinds = 4;

    public string Name => "diff";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is null) return false;
        var same = WateringChanges.Of(site.Checked, site.Checked, HorizonOf(site, site, WholeWithItself));
        Must.Hold(!same.IsAnythingChanged && !same.IsDescriptionChanged && same.Schedules.IsEmpty && same.Zones.IsEmpty && same.Causes.IsEmpty,
            "a site does not differ from itself", Words(same));
        if (original.Sound is null) return true;
        var horizon = HorizonOf(original, site, WholeWithOther);
        var forth = WateringChanges.Of(original.Checked, site.Checked, horizon);
        var back = WateringChanges.Of(site.Checked, original.Checked, horizon);
        Must.Equal(forth.IsChanged, back.IsChanged, "a change is one from either side");
        Must.Equal(forth.Devices.IsChanged, back.Devices.IsChanged, "devices do otherwise from either side");
        Must.Equal(forth.Findings.Any, back.Findings.Any, "findings change from either side");
        Must.Equal(forth.Zones.Length, back.Zones.Length, "as many zones differ from either side");
        Must.Equal(Count(forth, ScheduleChangeKind.Added), Count(back, ScheduleChangeKind.Removed),
            "as many schedules are new one way as are gone the other way");
        Must.Equal(Count(forth, ScheduleChangeKind.Changed), Count(back, ScheduleChangeKind.Changed), "as many schedules change from either side");
        CheckStage.IsJson(stream => ChangesJson.Write(forth, stream), "a difference in JSON is JSON");
        var markdown = CheckStage.Written(stream => MarkdownLines.WriteTo(stream, lines => ChangesMarkdown.Write(forth, lines)));
        Must.Hold(Words(forth).Length > 0 && markdown.Length > 0, "a difference is put in words");
        return true;
    }

    private static string Words(WateringChanges changes) =>
        CheckStage.Written(stream => PlainLines.WriteTo(stream, lines => ChangesText.Write(changes, lines)));

    private static int Count(WateringChanges changes, ScheduleChangeKind kind) => changes.Schedules.Count(change => change.Kind == kind);

    private static Horizon HorizonOf(SiteInHand old, SiteInHand @new, int whole)
    {
        var all = WateringChanges.HorizonOf(old.Reading.Site!, @new.Reading.Site!);
        return old.Salt % Kinds == whole ? all : Horizon.DaysFrom(all.From, FewDays);
    }
}
