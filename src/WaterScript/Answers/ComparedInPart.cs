using System.Globalization;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers;

/// <summary>A comparison that ended before its last date, because it would have gone through more runs than it may (<c>over-limit</c>).</summary>
/// <param name="Until">Up to when all was compared, in Unix seconds.</param>
/// <param name="Runs">How many runs that took.</param>
/// <param name="Most">The schedule that most of them are of.</param>
public sealed record ComparedInPart(long Until, long Runs, Schedule Most)
{
    /// <summary>Up to when, and what makes it so much.</summary>
    internal string Words(SiteWords words) => string.Create(
        CultureInfo.InvariantCulture,
        $"compared until {words.Moment(Until)}, not after: {Runs} runs by then, most of them of schedule {Most.Name} ({SiteWords.Place(Most.Origin)}) [{ReadingRules.OverLimit.Slug}]");

    /// <summary>The same for programs.</summary>
    internal static void Write(ComparedInPart? part, SiteJson document)
    {
        if (part is null) return;
        document.Json.Map("over_limit", () =>
        {
            document.Moment("compared_until", part.Until);
            document.Json.Entry("runs", part.Runs);
            document.Json.Entry("schedule", part.Most.Name);
            document.Place("place", part.Most.Origin);
        });
    }
}

/// <summary>Counts runs by schedule.</summary>
internal sealed class RunCounts(Site site)
{
    private readonly long[] _counts = new long[site.Schedules.Length];

    /// <summary>How many there are.</summary>
    public long Count { get; private set; }

    /// <summary>The schedule that most of them are of.</summary>
    public Schedule Most => site.Schedules.MaxBy(schedule => _counts[schedule.Index])!;

    /// <summary>How many are of one schedule.</summary>
    public long Of(Schedule schedule) => _counts[schedule.Index];

    /// <summary>Counts one.</summary>
    public void Add(int schedule)
    {
        Count++;
        _counts[schedule]++;
    }
}
