using WaterScript.Answers.Diff.Written;
using WaterScript.Answers.Usage;
using WaterScript.Model;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>A volume that a restriction allows, of which something else is used, or which is another.</summary>
/// <param name="Restriction">The restriction, as it is in the new version.</param>
/// <param name="Line">Its line.</param>
/// <param name="OldLine">The line as it was; null where there was none.</param>
/// <param name="Old">What was used of it where that was most; null where nothing was.</param>
/// <param name="New">What is; null where nothing is.</param>
internal sealed record AllowanceChange(Restriction Restriction, AtMost Line, AtMost? OldLine, AllowanceUse? Old, AllowanceUse? New)
{
    /// <summary>All that are, in order of the new files.</summary>
    public static IEnumerable<AllowanceChange> Between(CostSide old, CostSide @new, Renames names)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        foreach (var now in @new.Site.Restrictions)
        {
            var was = old.Site.Restrictions.FirstOrDefault(restriction => names.Of("restriction", restriction.Name) == now.Name);
            var volumes = (was?.AtMost ?? []).Where(line => line.Kind == LimitKind.Volume).ToList();
            foreach (var line in now.AtMost.Where(line => line.Kind == LimitKind.Volume))
            {
                var oldLine = volumes.Find(each => each.Period == line.Period && each.PerZone == line.PerZone);
                if (oldLine is not null) volumes.Remove(oldLine);
                var change = new AllowanceChange(now, line, oldLine, UseOf(old, oldLine), UseOf(@new, line));
                if (change.IsChanged(names)) yield return change;
            }
        }
    }

    private bool IsChanged(Renames names) => (Old ?? New) is not null && (OldLine?.Volume != Line.Volume
        || Old?.Litres != New?.Litres || Old?.Start != New?.Start || (Old?.Zone is { } zone ? names.OfZone(zone.Name) : null) != New?.Zone?.Name);

    private static AllowanceUse? UseOf(CostSide side, AtMost? line) =>
        line is null ? null : side.Allowances.FirstOrDefault(use => ReferenceEquals(use.Line, line));
}
