using System.Collections.Immutable;
using NodaTime;
using WaterScript.Model;

namespace WaterScript;

/// <summary>What a site is called and has. All that it is goes into its documents.</summary>
public sealed class CompiledSite
{
    internal CompiledSite(Site site)
    {
        Name = site.Name;
        Label = site.Label;
        TimeZone = site.TimeZone;
        Effective = site.Effective;
        Controllers = [.. site.Controllers.Select(controller => new SiteController(controller))];
        Zones = [.. site.Zones.Select(zone => new SiteZone(zone))];
        Schedules = [.. site.Schedules.Select(schedule => new SiteSchedule(schedule))];
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What people call it; null where the site says nothing but the name.</summary>
    public string? Label { get; }

    /// <summary>The zone of every clock time in it.</summary>
    public DateTimeZone TimeZone { get; }

    /// <summary>Nothing runs before the start of this date.</summary>
    public LocalDate Effective { get; }

    /// <summary>Its controllers, in order of the sources; at least one.</summary>
    public ImmutableArray<SiteController> Controllers { get; }

    /// <summary>Its zones, in order of the sources.</summary>
    public ImmutableArray<SiteZone> Zones { get; }

    /// <summary>Its schedules, in order of the sources.</summary>
    public ImmutableArray<SiteSchedule> Schedules { get; }
}

/// <summary>A controller of a site.</summary>
public sealed class SiteController
{
    internal SiteController(Controller controller)
    {
        Name = controller.Name;
        Label = controller.Label;
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What people call it; null where the site says nothing but the name.</summary>
    public string? Label { get; }
}

/// <summary>A zone of a site: what one valve waters, or somebody by hand.</summary>
public sealed class SiteZone
{
    internal SiteZone(Zone zone)
    {
        Name = zone.Name;
        Label = zone.Label;
        Controller = zone.Controller?.Name;
        Output = zone.Output == 0 ? null : zone.Output;
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What people call it; null where the site says nothing but the name.</summary>
    public string? Label { get; }

    /// <summary>The name of the controller that its valve is wired to; null where somebody waters it by hand.</summary>
    public string? Controller { get; }

    /// <summary>The output of the controller, from 1; null where none is given.</summary>
    public int? Output { get; }
}

/// <summary>A schedule of a site.</summary>
public sealed class SiteSchedule
{
    internal SiteSchedule(Schedule schedule)
    {
        Name = schedule.Name;
        Label = schedule.Label;
        IsManual = schedule.IsManual;
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What people call it; null where the site says nothing but the name.</summary>
    public string? Label { get; }

    /// <summary>Whether it has no calendar, so that it only runs when somebody starts it.</summary>
    public bool IsManual { get; }
}
