using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Model;

namespace WaterScript.Documents.Verdicts;

/// <summary>The line that says what the calendar proves: that passes never need one zone at once, or a controller that may not overlap.</summary>
internal sealed class CollisionLine
{
    private const int MostNames = 2;

    private readonly CheckedSite _site;
    private readonly LintReport _lint;
    private readonly ConflictProof _proof;
    private readonly Schedule[] _schedules;
    private readonly Schedule[] _moving;

    private CollisionLine(CheckedSite site, LintReport lint, ConflictProof proof)
    {
        (_site, _lint, _proof) = (site, lint, proof);
        _schedules = [.. site.Reading.Site!.Schedules.Where(schedule => !schedule.IsManual)];
        _moving = [.. _schedules.Where(schedule => proof.Moving.Contains(schedule.Name))];
    }

    /// <summary>The line; null where nothing could collide, or nothing beyond the dates that were looked at is known.</summary>
    public static string? Of(CheckedSite site)
    {
        if (site.Lint is not { ConflictProof: { } proof } lint) return null;
        var line = new CollisionLine(site, lint, proof);
        return line._schedules.Length == 0 || (line.IsOneStart && lint.Collisions == 0) ? null : line.Words;
    }

    private bool IsOneStart => _schedules is [{ Starts.Length: 1, Repeat: null }];

    private string Words => IsNothingProved
        ? $"{Claim} before {VerdictWords.Date(_lint.Horizon.Until)}{Found}; later dates are not proved."
        : _moving.Length == _schedules.Length
        ? $"{Claim} before {VerdictWords.Date(_lint.Horizon.Until)}: {(_schedules.Length == 1 ? _schedules[0].Name : "all")} {Follows}{Found}."
        : $"{Claim}{Until}{Found}{Moving}{NotProved}.";

    /// <summary>Whether the work came to its end before one pair was compared to the end: then only the dates that were looked at are known.</summary>
    private bool IsNothingProved => _proof is { IsWhole: false, Pairs: { All: > 0 } pairs } && pairs.All == pairs.NotProved;

    private string Claim => _lint.Collisions > 0 ? (_proof.IsWhole ? "All collisions" : "Collisions")
        : _schedules.Length == 1 ? "No passes can collide"
        : _site.Reading.Site!.Controllers.All(controller => controller.SchedulesMayOverlap == true) ? "No zone can be due twice at once"
        : "No schedules can collide";

    /// <summary>Arithmetic alone knows no last date, and no schedule that moves.</summary>
    private string Until => _proof is { IsForEver: true, Moving.IsEmpty: true } && _lint.Collisions == 0
        ? ", for ever"
        : $" before {VerdictWords.Date(_proof.Until)}";

    /// <summary>Where those that are found stand.</summary>
    private string Found
    {
        get
        {
            if (_lint.Collisions == 0) return "";
            var listed = _site.Findings.Count(IsCollision);
            var accepted = _site.Accepted.Count(entry => IsCollision(entry.Finding));
            var ways = new List<string>(3);
            if (listed > 0) ways.Add("listed");
            if (accepted > 0) ways.Add("accepted");
            if (_lint.Collisions > listed + accepted) ways.Add(_site.InBaseline > 0 ? "in the baseline" : "counted");
            return $" are {string.Join(" or ", ways)}";
        }
    }

    private string Moving => _moving.Length == 0 ? "" : $"; {NamesOfMoving} {Follows}: before {VerdictWords.Date(_lint.Horizon.Until)}";

    private string NamesOfMoving => _moving.Length <= MostNames
        ? string.Join(" and ", _moving.Select(schedule => schedule.Name))
        : VerdictWords.Number(_moving.Length, "schedule");

    private string Follows
    {
        get
        {
            var verb = _moving.Length == 1 ? "follows" : "follow";
            string[] others = [.. _moving.Select(schedule => schedule.Starts.OfType<StartAfter>().FirstOrDefault()?.Other ?? "the sun").Distinct()];
            return others.Length <= MostNames ? $"{verb} {string.Join(" or ", others)}" : $"{verb} the sun or others";
        }
    }

    private string NotProved => _proof.IsWhole ? ""
        : _proof.Pairs is { NotProved: > 0 } pairs ? $"; {pairs.NotProved} of {VerdictWords.Number(pairs.All, "pair")} not proved"
        : "; not all pairs proved";

    private static bool IsCollision(Finding finding) => RuleCatalogue.Collisions.Contains(finding.Rule);
}
