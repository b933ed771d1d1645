using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;

namespace WaterScript.Fuzz.Stages;

/// <summary>Safe fixes: what is fixed has no error that was not there before.</summary>
internal sealed class FixStage : IStage
{
    public string Name => "fix";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        var fixes = site.Checked.Findings.Select(finding => finding.Fix).OfType<Fix>().Where(fix => fix.IsSafe).ToList();
        if (fixes.Count == 0) return false;
        var before = site.Checked.Reading.Findings;
        var changed = FixSet.Apply(FixSet.Together(fixes));
        if (changed.Count != 1 || !changed.TryGetValue(site.Files.Root, out var text)) return false;
        var after = site.ReadWith(text).Findings;
        Must.Hold(Errors(after) <= Errors(before) || before.HasErrors, "safe fixes together give no error",
            after.FirstOrDefault(finding => finding.Severity == Severity.Error)?.Heading ?? "");
        return true;
    }

    private static int Errors(IEnumerable<Finding> findings) => findings.Count(finding => finding.Severity == Severity.Error);
}
