using System.Collections.Immutable;
using NodaTime;
using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript;

/// <summary>An output of a controller is on: for the valve of a zone, or for a pump, master or injector that runs because of zones.</summary>
public sealed class OutputOpening
{
    internal OutputOpening(Site site, in Opening opening)
    {
        Number = opening.Number;
        Start = Instant.FromUnixTimeSeconds(opening.From).InZone(site.TimeZone);
        End = Instant.FromUnixTimeSeconds(opening.To).InZone(site.TimeZone);
        Controller = site.Controllers[opening.Controller].Name;
        Output = opening.Output == 0 ? null : opening.Output;
        Zone = opening.Zone < 0 ? null : site.Zones[opening.Zone].Name;
        Device = opening.Device < 0 ? null : site.Devices[opening.Device].Name;
        Runs = [.. opening.Runs];
    }

    /// <summary>Its place among the openings of the timetable, from 1.</summary>
    public long Number { get; }

    /// <summary>Its first moment, in whole seconds, in the zone of the site.</summary>
    public ZonedDateTime Start { get; }

    /// <summary>The moment just past its end, in whole seconds; after <see cref="Start"/>.</summary>
    public ZonedDateTime End { get; }

    /// <summary>The name of the controller.</summary>
    public string Controller { get; }

    /// <summary>The output of the controller, from 1; null where none is given.</summary>
    public int? Output { get; }

    /// <summary>The name of the zone; null for a device.</summary>
    public string? Zone { get; }

    /// <summary>The name of the pump, master or injector; null for a zone.</summary>
    public string? Device { get; }

    /// <summary>The numbers of the runs that it comes from, in order; at least one.</summary>
    public ImmutableArray<long> Runs { get; }
}

/// <summary>A controller turns one output on or off.</summary>
public sealed class OutputSwitching
{
    internal OutputSwitching(Site site, in Switching switching)
    {
        Time = Instant.FromUnixTimeMilliseconds(switching.Milliseconds).InZone(site.TimeZone);
        Controller = site.Controllers[switching.Controller].Name;
        Output = switching.Output;
        IsOn = switching.IsOpen;
        Opening = switching.Opening;
        Zone = switching.Zone < 0 ? null : site.Zones[switching.Zone].Name;
        Device = switching.Device < 0 ? null : site.Devices[switching.Device].Name;
    }

    /// <summary>When, in whole milliseconds, in the zone of the site; later than the opening says where stagger makes it wait.</summary>
    public ZonedDateTime Time { get; }

    /// <summary>The name of the controller.</summary>
    public string Controller { get; }

    /// <summary>The output of the controller, from 1.</summary>
    public int Output { get; }

    /// <summary>Whether it turns the output on; otherwise off.</summary>
    public bool IsOn { get; }

    /// <summary>The number of the opening that it begins or ends, from 1.</summary>
    public long Opening { get; }

    /// <summary>The name of the zone; null for a device.</summary>
    public string? Zone { get; }

    /// <summary>The name of the pump, master or injector; null for a zone.</summary>
    public string? Device { get; }
}
