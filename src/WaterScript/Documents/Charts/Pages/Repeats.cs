using System.Text.Json;
using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>
/// Writes points so that what comes again and again is written once: <c>[at, value]</c>, or, of a group that repeats, <c>[at, times, every, value, at,
/// value…]</c> with times counted from the first of the group. The script of a page spreads them out again (<c>unfolded</c>).
/// </summary>
internal static class Repeats
{
    /// <summary>Points of a group, at most: a round of so many zones opens and closes.</summary>
    private const int MostPoints = 16;

    /// <summary>Writes points as a list.</summary>
    public static void Write(Utf8JsonWriter json, IReadOnlyList<NightPoint> points)
    {
        json.WriteStartArray();
        foreach (var (first, length, times) in Groups(points))
        {
            json.WriteStartArray();
            json.WriteNumberValue(points[first].At);
            if (times > 1)
            {
                json.WriteNumberValue(times);
                json.WriteNumberValue(points[first + length].At - points[first].At);
            }

            json.WriteNumberValue(points[first].Value);
            for (var i = first + 1; i < first + length; i++)
            {
                json.WriteNumberValue(points[i].At - points[first].At);
                json.WriteNumberValue(points[i].Value);
            }

            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    /// <summary>How many points are written.</summary>
    public static int CountOf(IReadOnlyList<NightPoint> points) => Groups(points).Sum(group => group.Length);

    /// <summary>Groups that repeat, and single points.</summary>
    private static IEnumerable<(int First, int Length, int Times)> Groups(IReadOnlyList<NightPoint> points)
    {
        for (var i = 0; i < points.Count;)
        {
            var (length, times) = (1, 1);
            for (var tried = 1; tried <= Math.Min(MostPoints, (points.Count - i) / 2); tried++)
            {
                var found = TimesOf(points, i, tried);
                if (found > 2 && tried * (found - 1) > length * (times - 1)) (length, times) = (tried, found);
            }

            yield return (i, length, times);
            i += length * times;
        }
    }

    /// <summary>How often a group comes, one after the other at one distance.</summary>
    private static int TimesOf(IReadOnlyList<NightPoint> points, int first, int length)
    {
        var every = points[first + length].At - points[first].At;
        var next = first + length;
        while (next < points.Count && points[next].At - points[next - length].At == every && points[next].Value == points[next - length].Value) next++;
        return (next - first) / length;
    }
}
