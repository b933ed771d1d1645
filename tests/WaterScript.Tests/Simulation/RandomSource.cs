using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace WaterScript.Tests.Simulation;

/// <summary>Writes a small site that uses much of the language, the same one for the same number.</summary>
/// <remarks>Its dates keep near clock changes, leap days, new year and the ends of seasons, where mistakes live.</remarks>
internal sealed partial class RandomSource
{
    private static readonly (string TimeZone, string Location)[] Places =
    [
        ("Europe/Lisbon", "39.6 N 8.1 W 310 m"), ("America/New_York", "41 N 74 W"), ("Australia/Lord_Howe", "31.5 S 159 E"),
        ("Africa/Casablanca", "33.5 N 7.5 W"), ("Pacific/Auckland", "37.8 S 175.9 E"), ("Asia/Kathmandu", "27.7 N 85.3 E 1400 m"),
        ("Europe/Oslo", "69.6 N 18.9 E"), ("America/Sao_Paulo", "23.5 S 46.6 W"), ("Africa/Cairo", "30 N 31.2 E"),
    ];

    private static readonly LocalDate[] Turns =
    [
        new(2026, 3, 29), new(2026, 10, 25), new(2026, 3, 8), new(2026, 11, 1), new(2026, 4, 5), new(2026, 10, 4), new(2026, 9, 27),
        new(2026, 2, 15), new(2026, 3, 22), new(2028, 2, 29), new(2026, 12, 31), new(2027, 2, 28), new(2018, 11, 4), new(2026, 4, 24), new(2026, 6, 21),
        new(2026, 10, 30),
    ];

    private static readonly string[] DayNames = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
    private static readonly string[] MonthNames = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    private static readonly string[] Nths = ["first", "second", "third", "fourth", "last"];

    private readonly Random _random;

    /// <summary>Chooses what is only about the wires, so that it changes no watering.</summary>
    private readonly Random _wiring;
    private readonly Random _more;
    private readonly bool _hasMore;

    private readonly List<string> _lines = [];
    private readonly List<string> _zones = [];
    private readonly List<string> _byHand = [];
    private readonly List<string> _sequences = [];
    private readonly List<string> _calendars = [];
    private readonly List<string> _scales = [];
    private readonly LocalDate _turn;
    private bool _hasGroup;
    private readonly List<string> _rules = [];
    private readonly HashSet<string> _keptBySome = [];
    private bool _hasInjector;
    private bool _isInCycle;
    private bool _hasWatering;
    private bool _hasNamedDays;
    private int _supplies;
    private int _controllers;

    private RandomSource(int number, bool hasMore)
    {
        _random = new Random(number);
        _wiring = new Random(~number);
        (_more, _hasMore) = (new Random(number ^ 0x5EED), hasMore);
        _turn = Pick(Turns);
        From = _turn.PlusDays(-_random.Next(1, 12));
    }

    /// <summary>A date a little before something happens.</summary>
    public LocalDate From { get; }

    public string Text => string.Join('\n', _lines) + "\n";

    /// <summary>The site of a number.</summary>
    /// <param name="number">The number.</param>
    /// <param name="hasMore">Whether it also has what was thought of later.</param>
    public static RandomSource Of(int number, bool hasMore = false)
    {
        var source = new RandomSource(number, hasMore);
        source.WriteSite();
        return source;
    }

    /// <summary>The same site with its schedules in the opposite order.</summary>
    public string TextWithSchedulesReversed()
    {
        var schedules = new Stack<List<string>>();
        var others = new List<string>();
        var isInside = false;
        foreach (var line in _lines)
        {
            if (line.StartsWith("schedule ", StringComparison.Ordinal))
            {
                schedules.Push([]);
                isInside = true;
            }

            (isInside ? schedules.Peek() : others).Add(line);
            if (line == "}") isInside = false;
        }

        return string.Join('\n', others.Concat(schedules.SelectMany(lines => lines))) + "\n";
    }

    private void WriteSite()
    {
        var (timeZone, location) = Pick(Places);
        WriteScales();
        var effective = From.PlusDays(_random.Next(-40, 5));
        var scale = _scales.Count > 0 && Chance(50) ? $"; scale {Pick(_scales)}" : "";
        Add($"site random {{ timezone {timeZone}; effective {Iso(effective)}; location {location}{scale} }}");
        WriteHardware();
        WriteDevices();
        WriteInjector();
        WriteSequences();
        if (More(30)) WriteNamedDays();
        if (More(35)) WriteRestrictions();
        var schedules = _random.Next(1, 5);
        for (var index = 0; index < schedules; index++) WriteSchedule($"plan-{index}");
        if (Chance(30)) WriteManual();
        if (Chance(30)) WriteHold();
        if (More(30)) WriteSkip();
        foreach (var rule in _rules.Where(_ => More(40)))
        {
            if (!_keptBySome.Contains(rule)) Add($"keep to {rule}");
        }

        if (Chance(20)) Add($"closed from {DayOfYear(-3, 10)} to {DayOfYear(11, 30)} because \"shut\"");
        if (Chance(20)) Add($"extra {Iso(_turn.PlusDays(40 + _random.Next(5)))} {Clock()} because \"new plants\" {{ water {List()} for {Seconds(20, 900)} }}");
    }

    private void WriteScales()
    {
        if (Chance(40))
        {
            var months = MonthNames.Where(_ => Chance(60)).Select(month => $"{month} {Percent()}").ToList();
            if (months.Count > 0) AddScale("by-month", months);
        }

        if (Chance(40))
        {
            var dates = Enumerable.Range(0, _random.Next(1, 4)).Select(index => From.PlusDays((index * 9) + _random.Next(-4, 5))).Distinct();
            AddScale("by-date", dates.Select(date => $"since {Iso(date)} {Percent()}"));
        }
    }

    private void AddScale(string name, IEnumerable<string> lines)
    {
        _scales.Add(name);
        Add($"scale {name} {{ {string.Join("; ", lines)} }}");
    }

    private void WriteHardware()
    {
        _supplies = _random.Next(4);
        for (var index = 0; index < _supplies; index++)
        {
            var change = Chance(60) ? $"; change-over {Pick("gap", "overlap")} {Seconds(1, 40)}" : "";
            var tank = Chance(30) ? "; tank 2 m3" : "";
            var feed = index > 0 && Chance(60) ? $"; fed-by water-{index - 1}" : "";
            Add($"supply water-{index} {{ flow 30 L/min{change}{tank}{feed} }}");
        }

        _controllers = _random.Next(1, 3);
        for (var index = 0; index < _controllers; index++) Add($"controller box-{index} {{ outputs 20{Stagger()} }}");
        Add("valve click latching { pulse 50 ms }");
        Add("valve hum non-latching { holding 200 mA }");
        var zones = _random.Next(2, 7);
        for (var index = 0; index < zones; index++)
        {
            var name = Pick("bed", "steps", "hold", "water", "row") + $"-{index}";
            var supply = _supplies > 1 ? $"; supply water-{_random.Next(_supplies)}" : "";
            var trim = Chance(25) ? $"; trim {Percent()}" : "";
            var shortest = Chance(25) ? $"; shortest {Seconds(5, 400)}" : "";
            var spare = index > 2 && Chance(15) ? "; spare" : "";
            var wired = $"output {20 - index}{Wired()}";
            var (water, valve) = (Water(), Valve(""));
            var isByHand = index > 1 && spare.Length == 0 && More(25);
            Add($"zone {name} {{ {(isByHand ? "hand-watered" : wired)}; {water}{supply}{trim}{shortest}{spare}{(isByHand ? "" : valve)} }}");
            if (isByHand) _byHand.Add(name);
            if (spare.Length == 0) _zones.Add(name);
        }

        if (Chance(50))
        {
            _hasGroup = true;
            Add($"group some = {_zones[0]} {Pick("+", ",")} {_zones[1]}");
        }
    }

    /// <summary>What an amount needs to become a time; most of the rates have no end in decimals.</summary>
    private string Water()
    {
        var flow = $"flow {Pick("4", "6.5", "9", "21", "0.7")} L/min";
        var ground = Pick($"area {Pick("12", "35", "90", "7.7")} m2", $"rate {Pick("12", "7", "33.3")} mm/h");
        var share = Pick("", "", $"; efficiency {Pick("80", "70", "62.5", "100")} %", $"; uniformity {Pick("50", "65", "77.7", "80")} %");
        return $"{flow}; {ground}{share}";
    }

    private void WriteDevices()
    {
        var devices = _random.Next(3);
        for (var index = 0; index < devices; index++)
        {
            var serves = _supplies > 0 && Chance(60) ? $"supply water-{_random.Next(_supplies)}"
                : $"zones {string.Join(", ", Switched.Take(_random.Next(1, 4)))}";
            var starts = Chance(60) ? $"; starts {Seconds(1, Pick(10, 900))} {Pick("before", "after")} zones" : "";
            var stops = Chance(60) ? $"; stops {Seconds(1, Pick(10, 900))} {Pick("before", "after")} zones" : "";
            var through = Chance(40) ? $"; bridges gaps up to {Seconds(1, Pick(60, 3600))}" : "";
            var wiring = $"output {Outputs(index + 1)}; {serves}{Passes()}{Valve("; load 60 mA")}";
            Add($"{Pick("pump", "master")} device-{index} {{ {wiring}{starts}{stops}{through} }}");
        }
    }

    /// <summary>The zones that have a valve; the first two always do.</summary>
    private IEnumerable<string> Switched => _zones.Except(_byHand);

    private string Passes() => More(33) ? $"; flow {_more.Next(3, 14)} L/min" : "";

    private void WriteInjector()
    {
        if (!Chance(30)) return;
        _hasInjector = true;
        var after = Chance(60) ? $"; after {Seconds(1, 200)}" : "";
        var rinse = Chance(60) ? $"; rinse {Seconds(1, 200)}" : "";
        Add($"injector feeder {{ output {Outputs(9)}; zones {string.Join(", ", Switched)}; load 40 mA{after}{rinse}{(_hasMore ? "; doses 12 L/h" : "")} }}");
    }

    /// <summary>A dose of a time or of an amount, which is not for pieces of a cycle.</summary>
    private string Dose() => !_isInCycle && More(60) ? OneOf(" for 40 s", " for 4 min", " with 0.4 L", " with 0.05 gal", " for burst") : "";

    private string Stagger() => _wiring.Next(5) switch
    {
        0 => "",
        1 => "; stagger 300 ms",
        2 => "; stagger 1500 ms",
        3 => $"; stagger {_wiring.Next(1, 20)} s",
        _ => "; stagger 33.4 ms",
    };

    private string Valve(string otherwise) => _wiring.Next(5) switch
    {
        0 or 1 => "; valve click",
        2 or 3 => "; valve hum",
        _ => otherwise,
    };

    private string Wired() => _controllers > 1 ? $" of box-{_random.Next(_controllers)}" : "";

    /// <summary>An output, or one of each of two controllers.</summary>
    private string Outputs(int number)
    {
        var first = Wired();
        return first.Length == 0 || !More(40) ? $"{number}{first}" : $"{number}{first}, {number} of box-{(first[^1] == '0' ? 1 : 0)}";
    }

    private void WriteSequences()
    {
        Add($"let burst = {Seconds(30, 300)}");
        Add($"let sown = {Iso(From.PlusDays(_random.Next(-10, 10)))}");
        if (Chance(40))
        {
            Add("sequence watering {");
            _isInCycle = true;
            WriteWater("  ");
            WriteWater("  ");
            _isInCycle = false;
            Add("}");
            _hasWatering = true;
        }

        for (var index = 0; index < 2; index++)
        {
            if (!Chance(40)) continue;
            Add($"sequence round-{index} {{");
            WriteSteps("  ", depth: 1);
            Add("}");
            _sequences.Add($"round-{index}");
        }
    }

    private void WriteSteps(string indent, int depth)
    {
        var steps = _random.Next(1, 4);
        for (var index = 0; index < steps; index++)
        {
            var kind = _random.Next(10);
            if (kind < 2)
                Add($"{indent}pause {Seconds(1, 60)}");
            else if (kind == 2 && _sequences.Count > 0)
                Add($"{indent}run {Pick(_sequences)}");
            else if (kind == 3 && depth < 3)
            {
                Add($"{indent}repeat {_random.Next(1, 4)} times {{");
                WriteSteps(indent + "  ", depth + 1);
                Add($"{indent}}}");
            }
            else if (kind == 4)
                WriteCycle(indent);
            else
                WriteWater(indent);
        }
    }

    private void WriteWater(string indent)
    {
        var exactly = More(15) ? "exactly " : "";
        var amount = Chance(75) ? $"for {exactly}{Pick(Seconds(5, 900), "burst", "10 min", "2 min 30 s", "1 h")}"
            : $"with {exactly}{Pick("1 mm", "2.5 mm", "0.1 in", "4 L", "33 L", "1.7 mm")}";
        var zones = More(15) ? Together() : $"{List()} {amount}";
        var isDosed = _hasInjector && Chance(30) && !_byHand.Exists(name => zones.Contains(name, StringComparison.Ordinal));
        Add($"{indent}water {zones}{(isDosed ? $" through feeder{Dose()}" : "")}");
    }

    /// <summary>Two or three lengths that begin together.</summary>
    private string Together()
    {
        var order = _zones.ToArray();
        _more.Shuffle(order);
        var first = order.Length > 2 && More(40) ? $"{order[0]} + {order[2]}" : order[0];
        var third = order.Length > 3 && More(30) ? $" + {order[3]} {Length()}" : "";
        return $"{first} {Length()} + {order[1]} {Length()}{third}";

        string Length() => OneOf("for 20 s", "for 7 min", "for exactly 45 s", "for burst", "with 2.5 mm", "with 7 L", "with exactly 1 mm", "for 3 min 20 s");
    }

    /// <summary>Also pieces of a few seconds, so that zones of a plus list have fewer seconds than there are pieces.</summary>
    private void WriteCycle(string indent)
    {
        Add($"{indent}cycle {Seconds(20, 400)} soak {Pick(Seconds(1, 90), Seconds(60, 1800))} {{");
        var lines = _random.Next(1, 4);
        _isInCycle = true;
        for (var line = 0; line < lines; line++) WriteWater(indent + "  ");
        _isInCycle = false;
        if (_hasWatering && Chance(30)) Add($"{indent}  run watering");
        Add($"{indent}}}");
    }

    private string List()
    {
        if (Chance(10)) return "all";
        if (_hasGroup && Chance(20)) return Pick("some", $"some, {Pick(_zones)}");
        var order = _zones.ToArray();
        _random.Shuffle(order);
        var text = order[0];
        foreach (var zone in order.Skip(1).Take(_random.Next(3))) text += Pick(" + ", ", ", ", ") + zone;
        return text;
    }

    private void Add(string line) => _lines.Add(line);

    /// <summary>What was thought of later is drawn apart, so that all else of a site stays as it was.</summary>
    private bool More(int percent) => _hasMore && _more.Next(100) < percent;

    private string OneOf(params string[] from) => from[_more.Next(from.Length)];

    private bool Chance(int percent) => _random.Next(100) < percent;

    private T Pick<T>(params IReadOnlyList<T> from) => from[_random.Next(from.Count)];

    private string Seconds(int least, int most)
    {
        var seconds = _random.Next(least, most + 1);
        return seconds % 60 == 0 ? $"{(seconds / 60).ToString(CultureInfo.InvariantCulture)} min" : $"{seconds.ToString(CultureInfo.InvariantCulture)} s";
    }

    private string Percent() => Pick("0 %", "12.5 %", "33 %", "50 %", "80 %", "99.9 %", "100 %", "110 %", "150 %");

    private string DayOfYear(int least, int most)
    {
        var date = _turn.PlusDays(_random.Next(least, most + 1));
        return $"{date.Day.ToString(CultureInfo.InvariantCulture)} {MonthNames[date.Month - 1]}";
    }

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
