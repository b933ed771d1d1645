using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>Turns moments of dates into instants for a site. It may be used from several threads.</summary>
/// <param name="clock">The site's wall clock.</param>
/// <param name="sun">The sun at the site; null when it has no location, and then no sun moment may be asked for.</param>
internal sealed class MomentReader(ZoneClock clock, SunTimes? sun)
{
    /// <summary>The site's wall clock.</summary>
    public ZoneClock Clock { get; } = clock;

    /// <summary>The moments of a site.</summary>
    public static MomentReader For(Site site)
    {
        var clock = new ZoneClock(site.TimeZone);
        return new(clock, site.Position is { } position ? SunTimes.Of(position, clock) : null);
    }

    /// <summary>The instant of a moment of a date, and what has to be said about it.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="day">The date, in days since 1970-01-01. With an offset the instant may lie on another one.</param>
    /// <exception cref="InvalidOperationException">A sun moment at a site without a location, which binding refuses.</exception>
    public MomentReading Read(Moment moment, int day) => moment switch
    {
        ClockMoment clockMoment => Clock.Read(day, clockMoment.SecondOfDay),
        SunMoment sunMoment => ReadSun(sunMoment, day),
        _ => throw new ArgumentException($"not a moment of the language: {moment.GetType().Name}", nameof(moment)),
    };

    private MomentReading ReadSun(SunMoment moment, int day)
    {
        if (sun is null)
            throw new InvalidOperationException("a sun time needs the location of the site");
        return sun.EventOn(day, moment.Event) is { } instant
            ? new(instant + moment.Offset.WholeSeconds(), MomentNote.None)
            : MomentReading.NoSunEvent;
    }
}
