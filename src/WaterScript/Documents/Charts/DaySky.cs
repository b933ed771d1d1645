using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>What the clock and the sun do on a day of a chart.</summary>
internal sealed class DaySky(Site site, ZoneClock clock)
{
    private readonly SunTimes? _sun = site.Position is { } position ? SunTimes.Of(position, clock) : null;

    /// <summary>From sunset to sunrise.</summary>
    public IEnumerable<ChartBand> Nights(long from, long until)
    {
        long? sunset = null;
        foreach (var (at, what) in Events(from, until))
        {
            if (what == SunEvent.Sunrise) yield return new ChartBand(sunset ?? from, at);
            sunset = what == SunEvent.Sunset ? at : null;
        }

        if (sunset is { } open) yield return new ChartBand(open, until);
    }

    /// <summary>Sunrise and sunset, in order of time.</summary>
    public IEnumerable<ChartNote> Notes(long from, long until) => Events(from, until).Select(
        sunEvent => new ChartNote(sunEvent.At, $"{(sunEvent.What == SunEvent.Sunrise ? "sunrise" : "sunset")} {TimeAt(sunEvent.At)}"));

    private IEnumerable<(long At, SunEvent What)> Events(long from, long until)
    {
        if (_sun is null) return [];
        var days = Enumerable.Range(clock.At(from).Day - 1, clock.At(until).Day - clock.At(from).Day + 3);
        return days.SelectMany(day => new[] { SunEvent.Sunrise, SunEvent.Sunset }.Select(what => (At: _sun.EventOn(day, what), What: what)))
            .Where(sunEvent => sunEvent.At is { } at && at > from && at < until)
            .Select(sunEvent => (sunEvent.At!.Value, sunEvent.What))
            .OrderBy(sunEvent => sunEvent.Value);
    }

    /// <summary>Changes of the clock, in order of time.</summary>
    public IEnumerable<ChartShift> Shifts(long from, long until)
    {
        var span = new Interval(Instant.FromUnixTimeSeconds(from), Instant.FromUnixTimeSeconds(until));
        foreach (var after in site.TimeZone.GetZoneIntervals(span).Where(interval => interval.HasStart && interval.Start > span.Start))
        {
            var at = after.Start.ToUnixTimeSeconds();
            var change = clock.OffsetAt(at) - clock.OffsetAt(at - 1);
            if (change == 0) continue;
            var words = string.Create(CultureInfo.InvariantCulture, $"clocks go {(change > 0 ? "forward" : "back")} {Phrases.Length(Math.Abs(change))}");
            yield return new ChartShift(at, clock.OffsetAt(at) - clock.OffsetAt(from), words);
        }
    }

    private string TimeAt(long instant) => MomentWords.Time(Instant.FromUnixTimeSeconds(instant).InZone(site.TimeZone).TimeOfDay);
}
