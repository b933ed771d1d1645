using System.Collections.Immutable;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit.Lists;

/// <summary>A list that a device may have had, as it was compiled.</summary>
/// <param name="File">Its name, for the report.</param>
/// <param name="From">The first second that it is for, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
/// <param name="Hash">The hash that closes it.</param>
/// <param name="Dates">The dates that it is for.</param>
/// <param name="Controller">The one controller that it is for; null for all, and where it has no row.</param>
/// <param name="Openings">When it opens zones, in order.</param>
internal sealed record GivenList(
    string File, long From, long Until, string Hash, Horizon Dates, Controller? Controller, ImmutableArray<Run> Openings)
{
    /// <summary>Until when it keeps a zone open, in Unix seconds.</summary>
    public long End { get; } = Openings.Select(run => run.End).Append(Until).Max();

    /// <summary>That of a site.</summary>
    /// <exception cref="DeployedException">It has a zone, an output or a controller that the site has not.</exception>
    public static GivenList Of(string file, DeployedList list, Site site)
    {
        ArgumentNullException.ThrowIfNull(list);
        ArgumentNullException.ThrowIfNull(site);
        var openings = DeployedOpenings.Of(list, site);
        var only = list.Controller is null || site.Controllers.Length <= 1 ? null : site.Controllers.FirstOrDefault(own => own.Name == list.Controller);
        return new GivenList(file, list.From, list.Until, list.Hash, list.DatesIn(site.TimeZone), only, openings);
    }

    /// <summary>Whether it is for a controller.</summary>
    public bool IsFor(int controller) => Controller is null || Controller.Index == controller;

    /// <summary>Whether a pass of a controller that starts at a moment is of its dates.</summary>
    public bool Covers(long moment, int controller) => moment >= From && moment < Until && IsFor(controller);
}

/// <summary>A list was due, and the device still had another.</summary>
/// <param name="Due">The one that was due.</param>
/// <param name="Had">The one that the rows name.</param>
/// <param name="First">The first such row, in Unix seconds.</param>
/// <param name="Last">The last.</param>
internal sealed record MissedUpdate(GivenList Due, GivenList Had, long First, long Last);
