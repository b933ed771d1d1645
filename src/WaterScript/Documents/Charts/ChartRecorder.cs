using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Charts;

/// <summary>
/// Keeps what a chart shows of a walk over a timetable. The walk begins before the days that are shown, because a pass may go on for long and a tank remembers.
/// </summary>
internal sealed class ChartRecorder : IRunObserver, IDemandObserver, IOpeningObserver, ISwitchingObserver
{
    private readonly long _from;
    private readonly long _until;
    private readonly CurrentDraw _draw;
    private readonly OpenContributions[] _open;
    private readonly TankLevel?[] _tanks;
    private readonly int _mostRuns;
    private long _drawn;
    private long _openings;

    public ChartRecorder(SimulationContext context, long from, long until, int mostRuns)
    {
        var site = context.Site;
        (_from, _until, _mostRuns) = (from, until, mostRuns);
        _open = [.. site.Controllers.Select(_ => new OpenContributions())];
        PowerLimits = [.. site.Controllers.Select(controller => PowerLimit.Continuous(controller.Power))];
        _draw = new CurrentDraw(site, PowerLimits);
        Flows = [.. site.Supplies.Select(_ => new CurveLine(from, until, 0))];
        Powers = [.. site.Controllers.Select(_ => new CurveLine(from, until, 0))];
        Levels = new CurveLine?[site.Supplies.Length];
        Devices = [.. site.Devices.Select(_ => new List<ChartBand>())];
        Rushes = [.. site.Controllers.Select(_ => new List<CurveCorner>())];
        _tanks = [.. site.Supplies.Select(supply => TankLevel.Of(context, supply, (at, level) => Levels[supply.Index]!.Add(at, level / TankLevel.PerLitre)))];
        foreach (var tank in _tanks.OfType<TankLevel>()) Levels[tank.Supply.Index] = new CurveLine(from, until, tank.Full / TankLevel.PerLitre);
    }

    /// <summary>The runs that touch the days shown, in their order.</summary>
    public List<Run> Runs { get; } = [];

    /// <summary>When each pump, master and injector is on.</summary>
    public List<ChartBand>[] Devices { get; }

    /// <summary>What each controller gives as something opens: what it holds open already, and the inrush.</summary>
    public List<CurveCorner>[] Rushes { get; }

    /// <summary>What each supply is asked for, in L/min.</summary>
    public CurveLine[] Flows { get; }

    /// <summary>What each tank holds, in L; null where it cannot be followed.</summary>
    public CurveLine?[] Levels { get; }

    /// <summary>What each controller holds open, as its limit counts.</summary>
    public CurveLine[] Powers { get; }

    /// <summary>What each controller can carry, or null.</summary>
    public PowerLimit?[] PowerLimits { get; }

    /// <inheritdoc/>
    public void Visit(in Run run)
    {
        if (run.End <= _from || run.Start >= _until) return;
        _drawn += 1 + ((Math.Min(run.End, _until) - Math.Max(run.Start, _from)) / ZoneClock.SecondsInDay);
        if (_drawn > _mostRuns) throw new ChartTooLargeException();
        Runs.Add(run);
    }

    /// <inheritdoc/>
    public bool ObservesReturns => true;

    /// <inheritdoc/>
    public void Visit(in DemandInterval interval)
    {
        var flow = Flows[interval.Supply.Index];
        flow.Step(interval.From, interval.Flow);
        flow.Step(interval.To, 0);
        if (interval.From >= _until || _tanks[interval.Supply.Index] is not { } tank) return;
        foreach (var _ in tank.Draw(interval)) { }
    }

    /// <inheritdoc/>
    public bool ObservesAny => Devices.Length > 0;

    /// <inheritdoc/>
    public void Visit(in Opening opening)
    {
        if (opening.Device < 0 || opening.To <= _from || opening.From >= _until) return;
        if (++_openings > _mostRuns) throw new ChartTooLargeException();
        var (from, to) = (Math.Max(_from, opening.From), Math.Min(_until, opening.To));
        var bands = Devices[opening.Device];
        if (bands.Count > 0 && bands[^1] is var last && from <= last.Until) bands[^1] = last with { Until = Math.Max(last.Until, to) };
        else bands.Add(new ChartBand(from, to));
    }

    /// <inheritdoc/>
    public bool Observes(Controller controller) => PowerLimits[controller.Index] is not null;

    /// <inheritdoc/>
    public void Visit(in Switching switching)
    {
        var open = _open[switching.Controller];
        if (!switching.IsOpen) open.Close(switching);
        else open.Open(switching, new Contribution(default, switching.Zone, switching.Device, _draw.Holding(switching)));
        if (switching.IsOpen) Rush(switching, open.Sum - _draw.Holding(switching) + _draw.Inrush(switching));
        Powers[switching.Controller].Step(switching.Second, open.Sum);
    }

    /// <summary>Of what opens in one second only the most is kept.</summary>
    private void Rush(in Switching switching, decimal value)
    {
        if (switching.Second < _from || switching.Second >= _until || value <= 0) return;
        var all = Rushes[switching.Controller];
        if (all.Count == 0 || all[^1].At != switching.Second) all.Add(new CurveCorner(switching.Second, value));
        else if (all[^1].Value < value) all[^1] = new CurveCorner(switching.Second, value);
    }

    /// <summary>No more is to come: tanks fill up until the end.</summary>
    public void Finish()
    {
        foreach (var tank in _tanks) tank?.RestUntil(_until);
    }
}
