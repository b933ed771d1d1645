using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>The batteries of a site, followed through the dates that are looked at.</summary>
internal sealed class Batteries
{
    private readonly LintContext _context;
    private readonly BatteryCharge[] _all;
    private readonly BatteryCharge?[] _ofController;
    private bool _isFinished;

    public Batteries(LintContext context)
    {
        _context = context;
        _all = [.. context.Manual is null ? BatteryCharge.OwnersIn(context.Site).Select(owner => new BatteryCharge(context, owner)) : []];
        _ofController = [.. context.Site.Controllers.Select(controller =>
            Array.Find(_all, battery => BatteryCharge.LivingOn(context.Site, battery.Owner).Any(other => other.Index == controller.Index)))];
    }

    /// <summary>Whether a controller lives on a battery.</summary>
    public bool Observes(Controller controller) => _ofController[controller.Index] is not null;

    /// <summary>Shows a switching to its battery.</summary>
    public void Visit(in Switching switching) => _ofController[switching.Controller]!.Visit(switching);

    /// <summary>All of them, at the end of the dates.</summary>
    public IEnumerable<BatteryCharge> Followed()
    {
        if (!_isFinished) foreach (var battery in _all) battery.Finish();
        _isFinished = true;
        return _all;
    }

    /// <summary>Those of which it is known what charges them.</summary>
    public IEnumerable<BatteryCharge> Judged() => Followed().Where(battery => battery.MonthsWithoutYield().Length == 0);

    /// <summary>What is not known of them.</summary>
    public IEnumerable<Gap> NotChecked() => _all.SelectMany(NotCheckedOf);

    private IEnumerable<Gap> NotCheckedOf(BatteryCharge battery)
    {
        var (site, owner) = (_context.Site, Thing.Of(battery.Owner));
        if (battery.MonthsWithoutYield() is { Length: > 0 } months)
            yield return new Gap(Concern.Power, "battery", [owner], $"temperatures for {string.Join(", ", months.Select(month => MonthNames.All[month - 1]))}");
        if (battery.Battery.ColdLossPercent is not null && (site.Climate is not { } climate || climate.Months.Any(month => month?.Coldest is null)))
            yield return new Gap(Concern.Power, "battery in the cold", [owner], "temperatures");
        var living = BatteryCharge.LivingOn(site, battery.Owner).ToList();
        foreach (var gap in Gap.Each(Concern.Power, "draw at rest", living.Select(controller => (Thing.Of(controller), Lacks(controller))))) yield return gap;
        var wired = WiredOutput.AllOf(site).Where(wired => living.Any(controller => controller.Index == wired.Controller.Index));
        foreach (var gap in Gap.Each(Concern.Power, "energy", wired.Select(each => (Thing.Of(each), EnergyDraw.LacksFor(each))))) yield return gap;
    }

    private static string? Lacks(Controller controller) => controller.Power!.Standby is null ? "standby" : null;
}
