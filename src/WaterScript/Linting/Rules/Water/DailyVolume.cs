using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A day on which more is drawn from a supply than its allowance.</summary>
internal sealed class DailyVolume : IRule, IDemandObserver
{
    public static Rule Rule { get; } = new("daily-volume", Severity.Error, "more water in a day than is allowed")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            Adds up what the zones draw from a supply on each date, from local midnight to local midnight, and compares it with its `daily` volume.
            """,
        Matters = "A well that gives 2 m3 a day gives no more because a schedule asks for it: the last zones of the day stay dry. Where the allowance is a " +
            "rule, more costs money.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 30 L/min; daily 500 L }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water lawn for 30 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 30 L/min; daily 500 L }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water lawn for 25 min }
            }
            """,
        FixSafety = "Writes other weekdays for one of several schedules. Unsafe: it waters on other days. They are tried against all rules " +
            "before they are proposed.",
        KnownLimits = "Manual schedules are looked at one pass at a time, as if nothing else ran on that day. Other days are tried for schedules `on` days " +
            "of the week, all of them moved by as many days; of the share that fits,\n" +
            "it is not calculated what rounding run times to the second and the shortest run times of zones add.",
        Sources = "The allowance is the user's own: the tool restates it, the authority's text governs.",
    };

    private readonly LintContext _context;
    private readonly DayUse?[] _supplies;
    private int _day;
    private long _dayFrom;
    private long _dayTo = long.MinValue;

    public DailyVolume(LintContext context)
    {
        _context = context;
        _supplies = [.. context.Site.Supplies.Select(supply => supply.Daily is null ? null : new DayUse(supply, context.Site.Zones.Length))];
    }

    public bool Observes(Supply supply) => supply.Daily is not null;

    public void Visit(in DemandInterval interval)
    {
        var use = _supplies[interval.Supply.Index]!;
        for (var from = interval.From; from < interval.To;)
        {
            TurnTo(from);
            var to = Math.Min(interval.To, _dayTo);
            use.Add(_day, to - from, interval);
            from = to;
        }
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (var use in _supplies.OfType<DayUse>())
        {
            use.EndDay();
            if (use.TooMuch.Happened) yield return FindingFor(use);
        }
    }

    public IEnumerable<Gap> NotChecked() => _context.Site.Supplies
        .Where(supply => supply.Daily is not null).SelectMany(supply => FlowGaps.Of(_context, supply, Concern.Flow, "daily volume"));

    private void TurnTo(long instant)
    {
        if (instant >= _dayFrom && instant < _dayTo) return;
        var date = _context.ClockAt(instant).Date;
        _day = CivilDate.DayNumberOf(date);
        _dayFrom = _context.Site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds();
        _dayTo = _context.Site.TimeZone.AtStartOfDay(date.PlusDays(1)).ToInstant().ToUnixTimeSeconds();
    }

    /// <summary>Further decimals where a sum would look like its limit.</summary>
    private const int MostDigits = 4;

    private Finding FindingFor(DayUse use)
    {
        var daily = use.Supply.Daily!.Value;
        var zones = use.WorstByZone.Select((litres, zone) => (Litres: litres, Zone: _context.Site.Zones[zone])).Where(entry => entry.Litres > 0)
            .OrderByDescending(entry => entry.Litres).ToArray();
        var needing = zones is [var only] ? $"zone {only.Zone.Name} needs" : "zones need";
        var finding = Finding.At(Rule, use.Supply.Daily!.Value.Place,
            $"{needing} {More(use.TooMuch.Worst)} in a day, supply {use.Supply.Name} gives {daily}", "the limit");
        finding = _context.Manual is { } manual
            ? finding with { Others = [new Label(manual.Origin, "one pass of this")] }
            : finding with { Happens = use.TooMuch.WholeDays };
        var moved = MovedDays.Of(_context.Site, use.Supply, use.WorstDay).FirstOrDefault(move => Clears(use, move));
        return finding with
        {
            Details = $"{(_context.Manual is null ? $"Most on {MomentWords.Date(CivilDate.FromDayNumber(use.WorstDay).ToLocalDate())}: " : "")}" +
                $"{Phrases.Names([.. zones.Select(entry => $"{entry.Zone.Name} {Say(entry.Litres)}")])}.",
            Excess = use.TooMuch.Worst - daily.InBase,
            Help = Help(use, moved),
            Fix = moved?.Fix,
        };

        string Say(decimal litres, int more = 0) => Phrases.Amount(litres, daily.Unit, (daily.Unit.Symbol == "L" ? 0 : 2) + more);

        // A sum just over the limit is never rounded onto it.
        string More(decimal litres) => Enumerable.Range(0, MostDigits).Select(more => Say(litres, more))
            .FirstOrDefault(words => words != Say(daily.InBase) && words != daily.ToString()) ?? Say(litres, MostDigits);
    }

    /// <summary>
    /// The share of that day that fits, rounded down to the whole per cent; and other days for a schedule, where a trial shows that they fit.
    /// </summary>
    private static string Help(DayUse use, MovedDays? moved)
    {
        var percent = Math.Floor(100 * (use.Supply.Daily!.Value.InBase + Flows.Tolerance) / use.TooMuch.Worst);
        var cut = percent > 0 ? $"Cut the run times of that day to {Phrases.Number(percent, 0)} %" : "Water less";
        return moved is null
            ? $"{cut}, or spread the zones over more days."
            : $"{cut}, or water {moved.Schedule.Name} {moved.Words} instead, which clears it.";
    }

    private bool Clears(DayUse use, MovedDays move) =>
        _context.Manual is null && Trial.Of(_context, move.In(_context.Site),
            trial => new DailyVolume(trial))?._supplies[use.Supply.Index]!.IsNeverOver() is true;

    /// <summary>What is drawn from a supply, day by day.</summary>
    private sealed class DayUse(Supply supply, int zones)
    {
        private readonly decimal[] _byZone = new decimal[zones];
        private int _day = int.MinValue;
        private decimal _litres;

        public Supply Supply { get; } = supply;

        /// <summary>The days on which it is too much; the worst is the most of a day, in L.</summary>
        public OccurrenceCounter TooMuch { get; } = new();

        public int WorstDay { get; private set; }

        public decimal[] WorstByZone { get; private set; } = [];

        public void Add(int day, long seconds, in DemandInterval interval)
        {
            if (day != _day) EndDay();
            _day = day;
            _litres += interval.Flow * seconds / 60;
            foreach (var contribution in interval.Contributions) _byZone[contribution.Zone] += contribution.Amount * seconds / 60;
        }

        /// <summary>Whether it was enough on every day, the last one too.</summary>
        public bool IsNeverOver()
        {
            EndDay();
            return !TooMuch.Happened;
        }

        public void EndDay()
        {
            if (_litres > Supply.Daily!.Value.InBase + Flows.Tolerance) Exceed();
            _litres = 0;
            Array.Clear(_byZone);
        }

        private void Exceed()
        {
            TooMuch.Add((long)_day * ZoneClock.SecondsInDay, _day);
            if (TooMuch.Reach(_litres)) (WorstDay, WorstByZone) = (_day, [.. _byZone]);
        }
    }
}
