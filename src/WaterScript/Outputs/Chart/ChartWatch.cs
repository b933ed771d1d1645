using WaterScript.Checks;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>
/// Watches what the checks watch, in the same walk, and keeps what a chart shows of it. It finds nothing itself. The walk begins
/// before the days that are shown, because a pass may go on for long and a tank remembers.
/// </summary>
internal sealed class ChartWatch : ISeesRuns, ISeesDemand, ISeesSwitchings
{
    private readonly long _from;
    private readonly long _until;
    private readonly Draw _draw;
    private readonly OpenParts[] _open;
    private readonly TankLevel?[] _tanks;

    public ChartWatch(Survey survey, long from, long until)
    {
        var site = survey.Site;
        (_from, _until) = (from, until);
        _open = [.. site.Controllers.Select(_ => new OpenParts())];
        PowerLimits = [.. site.Controllers.Select(controller => PowerLimit.Continuous(controller.Power))];
        _draw = new Draw(site, PowerLimits);
        Flows = [.. site.Supplies.Select(_ => new CurveLine(from, until, 0))];
        Powers = [.. site.Controllers.Select(_ => new CurveLine(from, until, 0))];
        Levels = new CurveLine?[site.Supplies.Length];
        _tanks = [.. site.Supplies.Select(supply => TankLevel.Of(survey, supply, (at, level) => Levels[supply.Index]!.Add(at, level / TankLevel.PerLitre)))];
        foreach (var tank in _tanks.OfType<TankLevel>()) Levels[tank.Supply.Index] = new CurveLine(from, until, tank.Full / TankLevel.PerLitre);
    }

    /// <summary>The runs that touch the days shown, in their order.</summary>
    public List<Run> Runs { get; } = [];

    /// <summary>What each supply is asked for, in L/min.</summary>
    public CurveLine[] Flows { get; }

    /// <summary>What each tank holds, in L; null where it cannot be followed.</summary>
    public CurveLine?[] Levels { get; }

    /// <summary>What each controller holds open, as its limit counts.</summary>
    public CurveLine[] Powers { get; }

    /// <summary>What each controller can carry, or null.</summary>
    public PowerLimit?[] PowerLimits { get; }

    /// <inheritdoc/>
    public void See(in Run run)
    {
        if (run.End > _from && run.Start < _until) Runs.Add(run);
    }

    /// <inheritdoc/>
    public void See(in Stretch stretch)
    {
        var flow = Flows[stretch.Supply.Index];
        flow.Step(stretch.From, stretch.Flow);
        flow.Step(stretch.To, 0);
        if (stretch.From >= _until || _tanks[stretch.Supply.Index] is not { } tank) return;
        foreach (var _ in tank.Draw(stretch)) { }
    }

    /// <inheritdoc/>
    public bool Wants(Controller controller) => PowerLimits[controller.Index] is not null;

    /// <inheritdoc/>
    public void See(in Switching switching)
    {
        var open = _open[switching.Controller];
        if (!switching.IsOpen) open.Close(switching);
        else open.Open(switching, new Part(default, switching.Zone, switching.Device, _draw.Holding(switching)));
        Powers[switching.Controller].Step(switching.Second, open.Sum);
    }

    /// <inheritdoc/>
    public IEnumerable<Finding> Findings() => [];

    /// <summary>No more is to come: tanks fill up until the end.</summary>
    public void Finish()
    {
        foreach (var tank in _tanks) tank?.RestUntil(_until);
    }
}
