using System.Text;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>
/// Draws a night in two versions: above, hollow and struck, what was; below, solid, what is; what moved is joined by a line. All nights of a week have one
/// axis: its hours stand over the first, what is folded away under the last. The script of the page (<c>Script/change.js</c>) draws the same to the letter,
/// at any width.
/// </summary>
internal sealed class ChangeDrawing
{
    private const double Bar = 13;
    private const double OldY = 6;
    private const double NewY = 25;
    private readonly TimeAxis _axis;
    private readonly PictureSizes _sizes;
    private readonly WaterFigures _figures;
    private readonly Night _clock;
    private readonly ChangeOptions _options;
    private readonly StringBuilder _ground = new();
    private readonly StringBuilder _svg = new();
    private readonly StringBuilder _words = new();

    private ChangeDrawing(ChangedNight night, Night clock, TimeAxis axis, PictureSizes sizes, WaterFigures figures, ChangeOptions options)
    {
        (Night, _clock, _axis, _sizes, _figures, _options) = (night, clock, axis, sizes, figures, options);
        Lane = sizes.IsWide ? 44 : 62;
    }

    private ChangedNight Night { get; }

    private double Lane { get; }

    /// <summary>A night as an element of SVG.</summary>
    /// <param name="night">The night.</param>
    /// <param name="clock">Knows what its clock shows.</param>
    /// <param name="axis">The time axis.</param>
    /// <param name="sizes">The room.</param>
    /// <param name="figures">How amounts are written.</param>
    /// <param name="options">What stands over and under it.</param>
    public static string Draw(ChangedNight night, Night clock, TimeAxis axis, PictureSizes sizes, WaterFigures figures, ChangeOptions options) =>
        new ChangeDrawing(night, clock, axis, sizes, figures, options).Draw();

    private string Draw()
    {
        var sky = _options.HasHours ? 20.0 : 4;
        var top = _clock.HasSun ? sky + 8 : sky;
        var bottom = top + (Lane * Night.Lanes.Length);
        if (_options.HasHours) DrawHours();
        if (_clock.HasSun) DrawSky(sky);
        DrawGrid(top, bottom);
        string[] names = Letters.CutAll([.. Night.Lanes.Select(lane => Plain(lane.Name))], _sizes.IsWide ? _sizes.Left - 14 : _sizes.Width * 0.5);
        foreach (var (index, lane) in Night.Lanes.Index()) DrawLane(lane, names[index], top + (Lane * index));
        var hasFoot = _options.HasFoot && _axis.Folds.Count > 0;
        if (hasFoot) DrawFoot(bottom + 16);
        var (width, tall) = (Number(_sizes.Width), Number(bottom + (hasFoot ? 22 : 4)));
        return $"<svg class=\"sheet\" width=\"{width}\" height=\"{tall}\" viewBox=\"0 0 {width} {tall}\" role=\"img\" " +
            $"aria-label=\"{Escaped($"{_clock.Title}: {Night.Words}")}\">{_ground}{_svg}{_words}</svg>";
    }

    private void DrawHours()
    {
        var used = -99.0;
        foreach (var at in _axis.Ticks(_clock, isFine: false))
        {
            var words = _clock.Clock(at, withSeconds: false);
            var half = Letters.Width(words) / 2;
            var middle = Math.Max(half, Math.Min(_sizes.Width - half, _axis.X(at)));
            if (middle - half < used + 6) continue;
            _words.Append(Shapes.Words(middle - half, 12, words, "s"));
            used = middle + half;
        }

        if (_sizes.Right == 0) return;
        var heading = $"{_figures.Unit.Symbol}, old → new";
        if (_sizes.Width - 82 - Letters.Width(heading) > used + 6) _words.Append(Shapes.Words(_sizes.Width - 82, 12, heading, "s e"));
    }

    private void DrawSky(double y)
    {
        foreach (var (from, until) in _axis.Pieces([new NightSpan(0, _clock.Length)])) _ground.Append(Box("day", from + 0.5, y - 1.5, until - from - 1, 4));
        foreach (var (from, until) in _axis.Pieces(_clock.Dark)) _ground.Append(Box("dark", from, y - 2, until - from, 5));
    }

    private void DrawGrid(double top, double bottom)
    {
        var lines = string.Concat(_axis.Ticks(_clock, isFine: false).Select(_axis.X).Select(x => $"M{Number(x)} {Number(top)}V{Number(bottom)}"));
        var folds = string.Concat(_axis.Folds.Select(fold => fold.X + (_axis.Fold / 2)).Select(x =>
            $"M{Number(x - 4)} {Number(top)}V{Number(bottom)}M{Number(x + 4)} {Number(top)}V{Number(bottom)}"));
        _ground.Append(Path("hair", lines)).Append(Path("rule fold", folds));
    }

    /// <summary>How much each fold leaves out.</summary>
    private void DrawFoot(double y)
    {
        var used = -99.0;
        foreach (var fold in _axis.Folds)
        {
            var words = TimeAxis.Folded(fold.Seconds);
            var x = Math.Max(0, Math.Min(_sizes.Width - Letters.Width(words), fold.X + ((_axis.Fold - Letters.Width(words)) / 2)));
            if (x < used + 6) continue;
            _words.Append(Shapes.Words(x, y, words, "s"));
            used = x + Letters.Width(words);
        }
    }

    private void DrawLane(ChangedLane lane, string name, double y)
    {
        var figures = ChangeWords.Amounts(_figures, lane);
        _ground.Append(Path("hair", $"M0 {Number(y + Lane - 0.5)}H{Number(_sizes.Width)}"));
        if (_sizes.IsWide)
        {
            _words.Append($"<text x=\"0\" y=\"{Number(y + 26)}\"><title>{Escaped(Plain(lane.Name))}</title>{Escaped(name)}</text>");
            if (_sizes.Right > 0) _words.Append(Shapes.Words(_sizes.Width - 82, y + 26, figures.Both, "s e"));
            if (_sizes.Right > 0) _words.Append(Shapes.Words(_sizes.Width, y + 26, figures.Difference, "e"));
        }
        else
        {
            _words.Append(Shapes.Words(0, y + 13, name, "halo")).Append(Shapes.Words(_sizes.Width, y + 13, figures.Difference, "s e halo"));
            y += 18;
        }

        foreach (var run in lane.Runs) DrawRun(run, y);
        DrawTimes([.. lane.Runs.Where(run => !run.IsSame && run.Old is not null).Select(run => run.Old!.Value)], y + OldY, "halo less-text");
        DrawTimes([.. lane.Runs.Where(run => run.New is not null).Select(run => run.New!.Value)], y + NewY, "halo");
    }

    private void DrawRun(ChangedRun run, double y)
    {
        if (run.IsSame)
        {
            var (from, width) = PlaceOf(run.New!.Value);
            _svg.Append(Box("same", from, y + NewY, width, Bar));
            return;
        }

        if (run.Old is { } old)
        {
            var (from, width) = PlaceOf(old);
            var middle = Number(y + OldY + (Bar / 2));
            _svg.Append(Box("was", from, y + OldY, width, Bar)).Append(Path("struck", $"M{Number(from - 2)} {middle}H{Number(from + width + 2)}"));
        }

        if (run.New is not { } @new) return;
        var (x, wide) = PlaceOf(@new);
        _svg.Append(Box("w", x, y + NewY, wide, Bar));
        if (run.Old is not { } before) return;
        var (left, oldWidth) = PlaceOf(before);
        _svg.Append(Path("slant", $"M{Number(left)} {Number(y + OldY + Bar)}L{Number(x)} {Number(y + NewY)}" +
            $"M{Number(left + oldWidth)} {Number(y + OldY + Bar)}L{Number(x + wide)} {Number(y + NewY)}"));
    }

    private (double X, double Width) PlaceOf((long From, long Until) run) =>
        (_axis.X(run.From), Math.Max(2, _axis.X(run.Until) - _axis.X(run.From)));

    /// <summary>The first and the last time of half a lane, and how long in all, where there is room; where it is narrow there is none.</summary>
    private void DrawTimes(List<(long From, long Until)> runs, double y, string kind)
    {
        if (runs.Count == 0 || !_sizes.IsWide) return;
        var taken = runs.ConvertAll(run => (From: _axis.X(run.From), Until: PlaceOf(run).X + PlaceOf(run).Width));
        void Put(double x, string words)
        {
            var until = x + Letters.Width(words);
            if (x < _axis.Left || until > _axis.Right || taken.Exists(each => x < each.Until + 4 && until > each.From - 4)) return;
            taken.Add((x, until));
            _words.Append(Shapes.Words(x, y + 11, words, kind));
        }

        // Waterings that are far apart have their own times.
        foreach (var group in Groups(runs))
        {
            var (start, end) = (_clock.Clock(group[0].From, withSeconds: false), _clock.Clock(group[^1].Until, withSeconds: false));
            var length = Wording.Phrases.Length(group.Sum(run => run.Until - run.From));
            Put(_axis.X(group[0].From) - 6 - Letters.Width(start), start);
            var x = PlaceOf(group[^1]).X + PlaceOf(group[^1]).Width + 6;
            var both = $"{end}, {length}";
            Put(x, x + Letters.Width(both) <= _axis.Right ? both : end);
        }
    }

    private List<List<(long From, long Until)>> Groups(List<(long From, long Until)> runs)
    {
        var groups = new List<List<(long From, long Until)>>();
        foreach (var run in runs.OrderBy(run => run.From))
        {
            if (groups.Count > 0 && _axis.X(run.From) - _axis.X(groups[^1][^1].Until) < 90) groups[^1].Add(run);
            else groups.Add([run]);
        }

        return groups;
    }
}

/// <summary>What stands over and under a night of a change.</summary>
/// <param name="HasHours">The hours.</param>
/// <param name="HasFoot">How much is folded away.</param>
internal sealed record ChangeOptions(bool HasHours, bool HasFoot);
