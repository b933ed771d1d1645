using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>The stretches without water of each zone, from the beginning of what is looked at; days on which it is out of season begin them anew.</summary>
/// <param name="context">What is looked at.</param>
internal sealed class DrySpells(SimulationContext context)
{
    private readonly WateringSeasons _seasons = new(context.Site);
    private readonly long[] _wetUntil =
        [.. context.Site.Zones.Select(_ => context.WallClock.StartOfDay(CivilDate.DayNumberOf(context.Horizon.From)))];

    /// <summary>The stretches of more than so many seconds that a run ends; runs come in order of their starts.</summary>
    public IEnumerable<(long From, long Until)> EndedBy(in Run run, long most)
    {
        var from = _wetUntil[run.Zone];
        _wetUntil[run.Zone] = Math.Max(from, run.End + run.Overlap);
        return run.Start - from > most ? Between(context.Site.Zones[run.Zone], from, run.Start, most) : [];
    }

    /// <summary>The stretches of more than so many seconds that are not over when what is looked at ends.</summary>
    public IEnumerable<(long From, long Until)> AtTheEnd(Zone zone, long most) =>
        Between(zone, _wetUntil[zone.Index], context.WallClock.StartOfDay(CivilDate.DayNumberOf(context.Horizon.Until)), most);

    private IEnumerable<(long From, long Until)> Between(Zone zone, long from, long until, long most)
    {
        var last = context.DayOf(until - 1);
        for (var day = context.DayOf(from); day <= last; day++)
        {
            if (_seasons.Include(zone, day)) continue;
            var end = Math.Min(until, context.WallClock.StartOfDay(day));
            if (end - from > most) yield return (from, end);
            from = Math.Max(from, context.WallClock.StartOfDay(day + 1));
        }

        if (until - from > most) yield return (from, until);
    }
}
