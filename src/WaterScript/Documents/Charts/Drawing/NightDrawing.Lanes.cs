using System.Globalization;
using System.Text;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>Bars, combs, their labels and findings of a lane; <c>Script/labels.js</c> draws the same.</summary>
internal sealed partial class NightDrawing
{
    /// <summary>Teeth that are nearer than this are one band.</summary>
    private const double NearestTeeth = 5;

    /// <summary>From one mark of a finding to the next, at least.</summary>
    private const double MarkPitch = 24;

    private static readonly string[] Kinds = ["advice", "warning", "error"];
    private readonly HashSet<int> _named = [];

    private static List<LaneGroup> GroupsOf(NightLane lane)
    {
        var groups = new Dictionary<(int Schedule, int Pass, bool IsHeld, int Comb), LaneGroup>();
        foreach (var (index, row) in lane.Rows.Concat(lane.Held).Index())
        {
            var isHeld = index >= lane.Rows.Count;
            var key = row.IsComb ? (0, 0, false, index) : (row.Schedule, row.Pass, isHeld, -1);
            if (!groups.TryGetValue(key, out var group)) groups[key] = group = new LaneGroup([], isHeld, index);
            group.Rows.Add(row);
        }

        return [.. groups.Values.Select(group => group with { Rows = [.. group.Rows.OrderBy(row => row.Start)] })
            .OrderBy(group => group.Rows[0].Start).ThenBy(group => group.First)];
    }

    private static string Lengths(List<NightRow> rows)
    {
        if (rows.Count == 1) return Phrases.Length(rows[0].Length);
        return rows.TrueForAll(row => row.Length == rows[0].Length)
            ? string.Create(CultureInfo.InvariantCulture, $"{rows.Count} × {Phrases.Length(rows[0].Length)}")
            : string.Create(CultureInfo.InvariantCulture, $"{rows.Count} cycles");
    }

    private string Link(NightRow row, bool isHeld, string shapes)
    {
        var place = _picture.Places[row.Place];
        var line = place.Mark ?? place.Line.ToString(CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture,
            $"<a class=\"run\" tabindex=\"-1\" data-run=\"{_night.Id}-{(isHeld ? "h" : "")}{_numbers[row]}\" data-line=\"{Escaped(line)}\" ") +
            $"href=\"{Escaped(place.Href)}\" aria-label=\"{Escaped(Says(row, isHeld))}\">{shapes}</a>";
    }

    private string Says(NightRow row, bool isHeld)
    {
        var repeats = row.IsComb
            ? string.Create(CultureInfo.InvariantCulture, $", every {Phrases.Length(row.Every)} for {Phrases.Length(row.Length)}, {row.Times} times")
            : "";
        var (from, until) = (_night.Clock(row.Start, withSeconds: false), _night.Clock(row.End, withSeconds: false));
        return $"{_picture.Zones[row.Zone]}, {from} to {until}{repeats}{(isHeld ? $", not watered: {row.Water}" : "")}";
    }

    private void DrawBars(NightLane lane, LaneGroup group)
    {
        var y = lane.Middle - (Bar / 2);
        double? before = null;
        foreach (var row in group.Rows)
        {
            var from = X(row.Start);
            var until = Math.Max(from + 2, X(row.End));
            if (before is { } end && end < from - 1 && from > _axis.Left && end < _axis.Right)
                lane.Soaks.Add((Math.Max(_axis.Left, end), Math.Min(from, _axis.Right), group.IsHeld));
            before = X(row.End);
            if (until < _axis.Left || from > _axis.Right) continue;
            var shape = group.IsHeld ? Box("hold", from, y + 0.75, until - from, Bar - 1.5) : Box("w", from, y, until - from, Bar);
            _marks.Append(Link(row, group.IsHeld, shape));
            lane.Taken.Add((from, until));
        }
    }

    private void DrawComb(NightLane lane, NightRow row, bool isHeld)
    {
        var y = lane.Middle - (Bar / 2);
        var (from, until) = (X(row.Start), X(row.End));
        lane.Taken.Add((from, until));
        if (row.Every * _axis.Scale < NearestTeeth)
        {
            var frame = $"M{Number(from)} {Number(y)}v16M{Number(until)} {Number(y)}v16M{Number(from)} {Number(y + 15)}H{Number(until)}";
            _marks.Append(Link(row, isHeld, isHeld
                ? Box("hold", from, y + 0.75, Math.Max(2, until - from), Bar - 1.5)
                : Box("pick wash", from, y, Math.Max(2, until - from), Bar) + Path("wl", frame)));
            return;
        }

        var teeth = new StringBuilder();
        var width = Number(Math.Max(2, row.Length * _axis.Scale));
        foreach (var at in Teeth(row)) teeth.Append($"M{Number(X(at))} {Number(y)}h{width}v16h-{width}z");
        var line = Path(isHeld ? "ax held" : "soak base", $"M{Number(from)} {Number(y + 16)}H{Number(until)}");
        var drawn = Box("pick", from, y, Math.Max(8, until - from), Bar) + Path(isHeld ? "hold" : "w", teeth.ToString()) + line;
        _marks.Append(Link(row, isHeld, drawn));
    }

    /// <summary>The starts of a comb's passes that are in sight.</summary>
    private IEnumerable<double> Teeth(NightRow row)
    {
        var (from, until) = (_axis.TimeAt(_axis.Left), _axis.TimeAt(_axis.Right));
        var first = Math.Max(0, Math.Floor((from - row.Start) / row.Every) - 1);
        var last = Math.Min(row.Times - 1, Math.Ceiling((until - row.Start) / row.Every) + 1);
        for (var i = first; i <= last; i++) yield return row.Start + (i * row.Every);
    }

    private void DrawSoaks(NightLane lane)
    {
        foreach (var (from, until, isHeld) in lane.Soaks)
        {
            string Line(double a, double b) => $"M{Number(a)} {Number(lane.Middle)}H{Number(b)}";
            var d = lane.Labels.Find(each => each.Kind == "halo gap" && each.X > from && each.X < until) is { } label
                ? Line(from, label.X - 5) + Line(label.X + Letters.Width(label.Words) + 5, until)
                : Line(from, until);
            _marks.Append(Path(isHeld ? "ax held" : "soak", d));
        }
    }

    /// <summary>Marks of findings over their seconds, the first of each with its words; none lies on another.</summary>
    private void DrawFindings(List<NightFinding> findings, double y, double stem)
    {
        NightFinding[] sorted =
            [.. findings.OrderBy(each => each.At).ThenBy(each => each.Number).Take((int)Math.Floor(_sizes.Width / MarkPitch) - 1)];
        var places = PlacesOf(sorted);
        var used = -1e9;
        foreach (var (index, each) in sorted.Index())
        {
            var finding = _picture.Findings[each.Number - 1];
            var at = X(each.At);
            var x = places[index];
            var kind = Kinds[finding.Severity];
            _words.Append(Path($"stem {kind}", $"M{Number(x)} {Number(y)}L{Number(at)} {Number(stem)}")).Append(Sign(kind, x, y, each.Number));
            var leftRoom = x - 14 - Math.Max(used, _axis.Left);
            used = x + 12;
            if (_named.Contains(each.Number)) continue;
            var next = index + 1 < sorted.Length ? places[index + 1] - 14 : _axis.Right;
            var room = next - x - 14;
            if (Letters.Width(finding.Words) <= room || leftRoom < Math.Max(room, Letters.Width(finding.Words)))
            {
                var words = Letters.Cut(finding.Words, room);
                if (room < 40 || Letters.Width(words) > room) continue;
                _words.Append(Words(x + 14, y + 4, words, "halo"));
                used = x + 14 + Letters.Width(words);
            }
            else
            {
                _words.Append(Words(x - 14 - Letters.Width(finding.Words), y + 4, finding.Words, "halo"));
            }

            _named.Add(each.Number);
        }
    }

    /// <summary>Where marks stand: each at its second, moved where it would lie on the one before, or out of the picture.</summary>
    private List<double> PlacesOf(NightFinding[] findings)
    {
        var places = new List<double>(findings.Length);
        foreach (var each in findings) places.Add(Math.Max(Math.Max(X(each.At), 11), (places.Count > 0 ? places[^1] : -1e9) + MarkPitch));
        for (var i = places.Count - 1; i >= 0; i--)
            places[i] = Math.Min(places[i], i + 1 < places.Count ? places[i + 1] - MarkPitch : _sizes.Width - 11);
        return places;
    }

    /// <summary>The mark of a finding: a triangle for an error, a square on its corner for a warning, a circle for advice.</summary>
    internal static string Sign(string kind, double x, double y, int number)
    {
        var shape = kind switch
        {
            "error" => Path("sign error", $"M{Number(x)} {Number(y - 11)}l10.5 18h-21z"),
            "warning" => Path("sign warning", $"M{Number(x)} {Number(y - 10.5)}l10.5 10.5l-10.5 10.5l-10.5 -10.5z"),
            _ => Path("sign advice", $"M{Number(x - 8.5)} {Number(y)}a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0 -17 0z"),
        };
        return shape + Words(x, y + 4, number.ToString(CultureInfo.InvariantCulture), "count");
    }

    /// <summary>From this distance on, each tooth has its time.</summary>
    private const double ToothLabels = 90;

    /// <summary>A bar that is wider speaks for itself.</summary>
    private const double OwnWords = 140;

    /// <summary>Takes room for a label where nothing else is; whether there is any.</summary>
    private bool Put(NightLane lane, double x, string words, string kind)
    {
        var until = x + Letters.Width(words);
        if (x < _axis.Left || until > _axis.Right || lane.Taken.Exists(taken => x < taken.Until + 5 && until > taken.From - 5)) return false;
        lane.Taken.Add((x, until));
        lane.Labels.Add(new LaneLabel(x, words, kind));
        return true;
    }

    private void LabelComb(NightLane lane, NightRow row, bool isHeld, List<LaneGroup> groups)
    {
        var pitch = row.Every * _axis.Scale;
        if (!_sizes.IsWide) return;
        if (pitch > ToothLabels)
        {
            LabelTeeth(lane, row, pitch);
            return;
        }

        var from = Math.Max(_axis.Left, X(row.Start));
        var room = _axis.Right - from;
        foreach (var other in groups.Where(group => group.IsComb && group.Rows[0] != row && X(group.Rows[0].Start) > from))
            room = Math.Min(room, X(other.Rows[0].Start) - from - 8);
        foreach (var fold in _axis.Folds.Where(fold => fold.X > from)) room = Math.Min(room, fold.X - from);
        var every = $"{(isHeld ? $"{row.Cause}, " : "")}every {Phrases.Length(row.Every)}";
        var times = string.Create(CultureInfo.InvariantCulture, $"{row.Times} times");
        var whole = $"{_night.Clock(row.Start, withSeconds: false)}–{_night.Clock(row.End - row.Length, withSeconds: false)}";
        string[] forms = [$"{whole}, {every} for {Phrases.Length(row.Length)}, {times}", $"{every}, {times}", times];
        if (Array.Find(forms, each => Letters.Width(each) <= room) is { } words) _words.Append(Words(from, lane.Middle - 13, words, "halo"));
    }

    private void LabelTeeth(NightLane lane, NightRow row, double pitch)
    {
        var width = Math.Max(2, row.Length * _axis.Scale);
        foreach (var at in Teeth(row))
        {
            var x = X(at) + width + 5;
            var both = $"{Clock(at)}–{Clock(at + row.Length)}";
            var words = Letters.Width(both) + width + 15 < pitch ? both : Clock(at);
            if (X(at) < _axis.Left || x + Letters.Width(words) > _axis.Right || Letters.Width(words) + width + 10 > pitch) continue;
            lane.Labels.Add(new LaneLabel(x, words, "halo"));
        }
    }

    private void LabelBars(NightLane lane, LaneGroup group)
    {
        var rows = group.Rows;
        if (!group.IsHeld && rows.Exists(row => row.Length * _axis.Scale > OwnWords))
        {
            foreach (var (index, row) in rows.Index()) LabelInside(lane, row, index, rows.Count);
            return;
        }

        var (from, until) = (X(rows[0].Start), Math.Max(X(rows[^1].End), X(rows[0].Start) + 2));
        var (start, end) = (Clock(rows[0].Start), Clock(rows[^1].End));
        var kind = group.IsHeld ? "halo s" : "halo";
        if (!group.IsHeld && rows.Count == 1 && from >= _axis.Left && until <= _axis.Right
            && Letters.Width(start) + Letters.Width(end) + 26 < until - from)
        {
            LabelWithin(lane, from, until, start, end, Phrases.Length(rows[0].Length));
            return;
        }

        var after = until + 6;
        if (Put(lane, from - 6 - Letters.Width(start), start, kind))
        {
            if (Put(lane, after, end, kind)) after += Letters.Width(end) + 8;
        }
        else if (Put(lane, after, $"{start}–{end}", kind)) after += Letters.Width($"{start}–{end}") + 8;
        else if (Put(lane, after, end, kind)) after += Letters.Width(end) + 8;
        LabelLength(lane, group, from, until, after);
    }

    private void LabelLength(NightLane lane, LaneGroup group, double from, double until, double after)
    {
        var rows = group.Rows;
        var words = group.IsHeld ? $"{rows[0].Cause}, {Lengths(rows)}" : Lengths(rows);
        if (rows.Count == 1)
        {
            var inside = group.IsHeld ? rows[0].Cause : words;
            var isWhole = from >= _axis.Left && until <= _axis.Right;
            if (isWhole && Letters.Width(inside) + 8 < until - from)
                lane.Labels.Add(new LaneLabel((from + until - Letters.Width(inside)) / 2, inside, group.IsHeld ? "s" : "on"));
            else if (group.IsHeld) Put(lane, after, inside, "halo s");
            return;
        }

        for (var i = 1; i < rows.Count; i++)
        {
            var (gapFrom, gapUntil) = (Math.Max(_axis.Left, X(rows[i - 1].End)), Math.Min(_axis.Right, X(rows[i].Start)));
            if (Letters.Width(words) + 16 < gapUntil - gapFrom && Put(lane, (gapFrom + gapUntil - Letters.Width(words)) / 2, words, "halo gap")) return;
        }

        Put(lane, after, words, "halo s");
    }

    private static void LabelWithin(NightLane lane, double from, double until, string start, string end, string middle)
    {
        lane.Labels.Add(new LaneLabel(from + 6, start, "on"));
        lane.Labels.Add(new LaneLabel(until - 6 - Letters.Width(end), end, "on"));
        if (Letters.Width(middle) + Letters.Width(start) + Letters.Width(end) + 50 < until - from)
            lane.Labels.Add(new LaneLabel((from + until - Letters.Width(middle)) / 2, middle, "on"));
    }

    /// <summary>Where a bar is wide it speaks for itself; what is cut off at an edge says so.</summary>
    private void LabelInside(NightLane lane, NightRow row, int index, int count)
    {
        var (from, until) = (Math.Max(X(row.Start), _axis.Left), Math.Min(X(row.End), _axis.Right));
        if (until - from < 8) return;
        var start = (X(row.Start) < _axis.Left - 1 ? "since " : "") + Clock(row.Start);
        var end = (X(row.End) > _axis.Right + 1 ? "to " : "") + Clock(row.End);
        var middle = Phrases.Length(row.Length) + (count > 1 ? string.Create(CultureInfo.InvariantCulture, $", {index + 1} of {count}") : "");
        if (Letters.Width(start) + Letters.Width(end) + 26 < until - from) LabelWithin(lane, from, until, start, end, middle);
        else if (X(row.Start) >= _axis.Left - 1 && Put(lane, from - 6 - Letters.Width(start), start, "halo")) Put(lane, until + 6, end, "halo");
        else if (Letters.Width(end) + 12 < until - from) lane.Labels.Add(new LaneLabel(until - 6 - Letters.Width(end), end, "on"));
    }
}
