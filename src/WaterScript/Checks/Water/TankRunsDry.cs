using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>A tank that is drawn down to its reserve while somebody still wants water.</summary>
internal sealed class TankRunsDry : ISeesDemand
{
    public static Rule Rule { get; } = new("tank-runs-dry", Severity.Error, "a tank that runs dry")
    {
        CanBeAccepted = true,
        Finds = """
            Follows the level of a tank through all the dates that are looked at: what zones draw, and what the `refill` and the rain from its roof add until it is full. Finds when the level would fall under the `reserve`.
            """,
        Matters = """
            A pump that draws air is soon broken, and the zones that come last stay dry on the hottest days, when most is wanted.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply butt { flow 20 L/min; tank 1000 L; refill 5 L/min }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water lawn for 90 min }
            }
            """,
        Mended = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply butt { flow 20 L/min; tank 1000 L; refill 5 L/min }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water lawn for 1 h }
            }
            """,
        KnownLimits = """
            The refill is taken to flow at all hours, and the rain of a month to fall evenly over it, year by year the same: a dry month leaves less. What refills other tanks from this one is not taken off; such a tank is not judged. Of a manual schedule one pass is looked at, from a full tank.
            """,
        Sources = "Minutes to empty = (volume − reserve) / (out − in).",
    };

    private readonly Survey _survey;
    private readonly Tank?[] _tanks;

    public TankRunsDry(Survey survey)
    {
        _survey = survey;
        _tanks = [.. survey.Site.Supplies.Select(supply => LacksFor(supply) is null && supply.Tank is not null ? new Tank(supply, survey, ReadingOf(supply)) : null)];
    }

    public void See(in Stretch stretch) => _tanks[stretch.Supply.Index]?.Draw(stretch);

    public IEnumerable<Finding> Findings() => _tanks.OfType<Tank>().Where(tank => tank.Times > 0).Select(FindingFor);

    public IEnumerable<string> NotChecked()
    {
        foreach (var supply in _survey.Site.Supplies.Where(supply => supply.Tank is not null))
        {
            if (LacksFor(supply) is { } lacks) yield return $"tank of {supply.Name} ({lacks})";
            else foreach (var unknown in Flows.Unknown(_survey.Site, supply, $"tank of {supply.Name}: water")) yield return unknown;
        }
    }

    private string? LacksFor(Supply supply)
    {
        if (_survey.Site.Supplies.Any(other => other.Tank is not null && Demand.Above(other.FedBy).Contains(supply))) return "it fills another tank";
        return TankInflow.LacksFor(supply, _survey.Site);
    }

    /// <summary>The start of the date on which the level is known, in Unix seconds.</summary>
    private long? ReadingOf(Supply supply) => supply.ContainsOn is { } date && _survey.Manual is null
        ? _survey.Site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds()
        : null;

    private Finding FindingFor(Tank tank)
    {
        var supply = tank.Supply;
        var finding = Finding.At(Rule, supply.Origin, $"{supply.DisplayName} runs dry", Gets(supply)) with
        {
            Others = [.. _survey.Steps.Of(tank.Asker).Labels("draws while it falls under its reserve")],
        };
        finding = _survey.Happening(finding, tank.First, tank.Last, tank.Times, tank.Days);
        var reserve = supply.Reserve is { } kept ? $"under the reserve of {kept}" : "empty";
        return finding with
        {
            Details = $"{finding.Details}It is {reserve} {Wording.Number((decimal)tank.FirstAfter / 60, 1)} min after the watering begins. In all, {Say(tank.Shortfall)} are missing; most on one day: {Say(tank.WorstDay)}.",
            Assumed = Assumed(tank),
            WayOut = "Water less or less often, or give the tank more time to refill.",
        };
    }

    private static string Gets(Supply supply) =>
        $"holds {supply.Tank}{(supply.Refill is { } refill ? $", refilled at {refill}" : "")}{(supply.CatchArea is { } roof ? $", catches rain from {roof}" : "")}";

    private static string Assumed(Tank tank) => string.Join(
        ' ',
        new[]
        {
            tank.IsFullAtStart ? "The tank is full at the start." : "",
            tank.Supply.Refill is null ? "" : "The refill flows at all hours.",
            tank.Supply.CatchArea is null ? "" : "The rain of a month falls evenly over it.",
        }.Where(sentence => sentence.Length > 0));

    private static string Say(decimal litres) => $"{Wording.Number(litres, 0)} L";

    /// <summary>A tank and its level, reckoned in sixtieths of a litre: what a flow of 1 L/min brings in a second, so that nothing has to be rounded.</summary>
    private sealed class Tank(Supply supply, Survey survey, long? reading)
    {
        private const int PerLitre = 60;
        private readonly decimal _full = supply.Tank!.Value.InBase * PerLitre;
        private readonly decimal _least = (supply.Reserve?.InBase ?? 0) * PerLitre;
        private readonly TankInflow _inflow = new(supply, survey);
        private decimal _level = supply.Tank!.Value.InBase * PerLitre;
        private long _now = long.MinValue;
        private long? _reading = reading;
        private long _drawnSince;
        private long _dryUntil = long.MinValue;
        private int _day = int.MinValue;
        private decimal _dayShortfall;

        public Supply Supply { get; } = supply;

        public bool IsFullAtStart { get; private set; } = true;

        public Asker Asker { get; private set; }

        /// <summary>When it is dry for the first time, rounded down to the second.</summary>
        public long First { get; private set; }

        /// <summary>Seconds from when the zones began to draw to that.</summary>
        public double FirstAfter { get; private set; }

        public long Last { get; private set; }

        public long Times { get; private set; }

        public long Days { get; private set; }

        public decimal Shortfall { get; private set; }

        public decimal WorstDay { get; private set; }

        public void Draw(in Stretch stretch)
        {
            Rest(stretch.From);
            if (_reading is { } reading && reading < stretch.To && reading >= stretch.From) Read();
            while (_now < stretch.To)
            {
                var inflow = _inflow.At(_now, out var until);
                DrawEvenly(stretch with { From = _now, To = Math.Min(until, stretch.To) }, inflow - stretch.Flow);
            }
        }

        /// <summary>A stretch in which what flows in stays the same.</summary>
        private void DrawEvenly(in Stretch stretch, decimal change)
        {
            var level = _level + (change * stretch.Seconds);
            _now = stretch.To;
            if (level < _least - Flows.Tolerance) Miss(stretch, change, level);
            _level = Math.Clamp(level, Math.Min(_level, _least), _full);
        }

        /// <summary>Nothing is drawn until then: the tank fills up. A known level counts from its date on.</summary>
        private void Rest(long until)
        {
            if (_now == long.MinValue) _now = Math.Min(until, _reading ?? until);
            if (_reading is { } reading && reading <= until)
            {
                Read();
                _now = Math.Max(_now, reading);
            }

            if (until > _now) _drawnSince = until;
            while (_now < until) Fill(until);
            if (_drawnSince == 0) _drawnSince = until;
        }

        private void Fill(long until)
        {
            var inflow = _inflow.At(_now, out var change);
            var to = Math.Min(change, until);
            _level = Math.Min(_full, _level + (inflow * (to - _now)));
            _now = to;
        }

        private void Read()
        {
            _level = Supply.Contains!.Value.InBase * PerLitre;
            _reading = null;
            IsFullAtStart = IsFullAtStart && Times > 0;
        }

        private void Miss(in Stretch stretch, decimal change, decimal level)
        {
            var isDryAlready = _level <= _least;
            var after = isDryAlready ? 0 : (double)((_level - _least) / -change);
            var at = stretch.From + (long)after;
            if (!isDryAlready || _dryUntil < stretch.From) Begin(at, stretch.From - _drawnSince + after, stretch);
            _dryUntil = stretch.To;
            var missing = (Math.Min(_level, _least) - level) / PerLitre;
            Shortfall += missing;
            _dayShortfall += missing;
            WorstDay = Math.Max(WorstDay, _dayShortfall);
        }

        private void Begin(long at, double after, in Stretch stretch)
        {
            if (Times++ == 0) (First, FirstAfter, Asker) = (at, after, stretch.Parts.MaxBy(part => part.Amount).Asker);
            Last = at;
            var day = survey.DayOf(at);
            if (day == _day) return;
            Days++;
            (_day, _dayShortfall) = (day, 0);
        }
    }
}
