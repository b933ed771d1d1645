using WaterScript.Answers.Diff.Written;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Answers.Diff.Devices;

/// <summary>The openings of one version, second by second.</summary>
internal sealed class SwitchedSide : IDisposable
{
    private const int WorkOfOpening = 10;

    private readonly IEnumerator<Opening> _openings;
    private readonly string[] _zones;
    private readonly string[] _devices;
    private readonly string[] _controllers;
    private readonly List<(string What, int Output, string Controller, long To)> _now = [];
    private bool _isOver;

    /// <param name="site">The version.</param>
    /// <param name="names">What things are called in the other version; null for this one's own names.</param>
    /// <param name="timetable">What it does, counted.</param>
    public SwitchedSide(Site site, Renames? names, Timetable timetable)
    {
        (Site, Budget) = (site, timetable.Budget!);
        _openings = timetable.Openings().GetEnumerator();
        _zones = [.. site.Zones.Select(zone => "zone " + (names?.OfZone(zone.Name) ?? zone.Name))];
        _devices = [.. site.Devices.Select(device =>
            $"{Wiring.KindOf(device)} {names?.Of(Wiring.KindOf(device), device.Name) ?? device.Name}")];
        _controllers = [.. site.Controllers.Select(controller => names?.Of("controller", controller.Name) ?? controller.Name)];
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>Counts the work.</summary>
    public WorkBudget Budget { get; }

    /// <summary>How many openings were taken.</summary>
    public long Count { get; private set; }

    /// <summary>When the next one begins, in Unix seconds.</summary>
    public long Next => _isOver ? long.MaxValue : _openings.Current.From;

    /// <summary>Goes to the next opening.</summary>
    /// <exception cref="WorkUsedUpException">That is too much work.</exception>
    public void Advance() => _isOver = !_openings.MoveNext();

    /// <summary>Takes all that begins at a second, in order of what opens.</summary>
    /// <exception cref="WorkUsedUpException">That is too much work.</exception>
    public List<(string What, int Output, string Controller, long To)> Take(long second)
    {
        _now.Clear();
        while (Next == second)
        {
            var opening = _openings.Current;
            var what = opening.Zone >= 0 ? _zones[opening.Zone] : _devices[opening.Device];
            _now.Add((what, opening.Output, _controllers[opening.Controller], opening.To));
            Budget.Spend(WorkOfOpening);
            Count++;
            Advance();
        }

        _now.Sort();
        return _now;
    }

    /// <inheritdoc/>
    public void Dispose() => _openings.Dispose();
}
