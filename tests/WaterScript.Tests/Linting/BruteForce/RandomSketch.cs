using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>
/// Writes a small site full of limits that it now and then breaks, the same one for the same number: few zones and short lists of times, so that
/// waterings meet, touch and just miss each other; around a clock change, a leap day or new year.
/// </summary>
internal sealed class RandomSketch
{
    private static readonly (string TimeZone, string Location, LocalDate Turn)[] Places =
    [
        ("Europe/Lisbon", "39.6 N 8.1 W 310 m", new(2026, 3, 29)), ("Europe/Lisbon", "39.6 N 8.1 W", new(2026, 10, 25)),
        ("America/New_York", "41 N 74 W", new(2026, 3, 8)), ("America/New_York", "41 N 74 W", new(2026, 11, 1)),
        ("Australia/Lord_Howe", "31.5 S 159 E", new(2026, 4, 5)), ("Australia/Lord_Howe", "31.5 S 159 E", new(2026, 10, 4)),
        ("Africa/Cairo", "30 N 31.2 E", new(2026, 4, 24)), ("Africa/Cairo", "30 N 31.2 E", new(2026, 10, 30)),
        ("America/Sao_Paulo", "23.5 S 46.6 W", new(2018, 11, 4)), ("Africa/Casablanca", "33.5 N 7.5 W", new(2026, 3, 22)),
        ("Asia/Kathmandu", "27.7 N 85.3 E 1400 m", new(2028, 2, 29)), ("Pacific/Auckland", "37.8 S 175.9 E", new(2026, 12, 31)),
    ];

    private static readonly string[] DayNames = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
    private static readonly string[] MonthNames = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    private static readonly string[] Clocks =
        ["00:00", "00:30", "01:30", "02:00", "02:30", "05:50", "06:00", "06:05", "06:10", "06:15:30", "06:20", "06:30", "07:00", "12:00", "20:00", "21:45",
            "23:30", "23:50", "23:59:50"];

    private readonly Random _random;

    /// <summary>What was thought of later is drawn apart, so that all else of a site stays as it was.</summary>
    private readonly Random _more;
    private readonly string _timeZone;
    private readonly string _location;
    private readonly LocalDate _turn;
    private readonly LocalDate _from;
    private readonly int _supplies;
    private readonly int _controllers;
    private readonly string[] _zones;
    private readonly bool _hasScale;
    private readonly bool _hasSequence;
    private readonly bool _isLatching;

    /// <summary>Zones that are watered by hand.</summary>
    private readonly HashSet<string> _byHand;
    private readonly List<string> _tanks = [];
    private readonly Random _returns;

    private RandomSketch(int number)
    {
        _random = new Random(number);
        _more = new Random(number ^ 0x5EED);
        (_timeZone, _location, _turn) = Pick(Places);
        _from = _turn.PlusDays(-_random.Next(0, 8));
        _supplies = _random.Next(1, 4);
        _controllers = _random.Next(1, 3);
        _zones = [.. Enumerable.Range(0, _random.Next(2, 6)).Select(index => $"z{index}")];
        _hasScale = Chance(25);
        _hasSequence = Chance(30);
        _isLatching = Chance(40);
        _returns = new Random(number ^ 0x2E7);
        var hands = new Random(number ^ 0xBA2D);
        _byHand = [.. _zones.Skip(1).Where(_ => hands.Next(6) == 0)];
    }

    public static Sketch Of(int number)
    {
        var source = new RandomSketch(number);
        return new Sketch([.. source.Statements()]);
    }

    private IEnumerable<Statement> Statements()
    {
        yield return Block("site random",
            [$"timezone {_timeZone}", $"effective {Iso(_from)}", $"location {_location}", .. If(_hasScale && Chance(60), "scale year")]);
        if (_hasScale) yield return Block("scale year", [.. MonthNames.Where(_ => Chance(70)).Select(month => $"{month} {Percent()}"), $"dec {Percent()}"],
            distinctHeads: true);
        for (var index = 0; index < _supplies; index++) yield return Supply(index);
        for (var index = 0; index < _controllers; index++) yield return Controller(index);
        yield return Block("valve hum non-latching", ["inrush 250 mA", "holding 150 mA"]);
        yield return Block("valve buzz non-latching", ["inrush 400 mA", "holding 220 mA"]);
        foreach (var name in new[] { "click", "snap" }) yield return Latching(name);
        for (var index = 0; index < _zones.Length; index++) yield return Zone(index);
        for (var index = _random.Next(3); index > 0; index--) yield return Device(index);
        for (var index = _random.Next(3); index > 0; index--) yield return Restriction(index);
        if (_hasSequence) yield return Block("sequence round", Waterings(2));
        var schedules = _random.Next(1, 4);
        for (var index = 0; index < schedules; index++) yield return Schedule(index);
        if (Chance(20)) yield return new Statement(Hold());
        if (Chance(10)) yield return new Statement($"closed from {DayOfYear(-2, 2)} to {DayOfYear(3, 6)} because \"shut\"");
        if (Chance(20)) yield return Block($"extra {Iso(_from.PlusDays(_random.Next(9)))} {Pick(Clocks)} because \"new plants\"", Waterings(1));
    }

    private Statement Latching(string name) => Block(
        $"valve {name} latching",
        [
            $"pulse {Pick("20", "50", "50", "80")} ms",
            .. If(Chance(40), $"response-time {Pick("5", "15")} ms"),
            .. If(Chance(92), $"coil {Pick("20", "40", "80")} ohm"),
            .. If(Chance(92), $"minimum-voltage {Pick("5", "7", "9", "12")} V"),
        ]);

    private Statement Supply(int index)
    {
        var supply = Block($"supply s{index}", SupplyLines(index));
        if (supply.Body!.Value.Any(line => line.Text.StartsWith("tank ", StringComparison.Ordinal))) _tanks.Add($"s{index}");
        return supply;
    }

    private string[] SupplyLines(int index) =>
        [
            .. If(Chance(80), $"flow {Pick("6", "10", "16", "20", "20.5", "26", "50")} L/min"),
            .. If(Chance(40), $"minimum-flow {Pick("4.5", "6", "10", "11")} L/min"),
            .. If(Chance(10), Pick("bypass", "pressure-tank 24 L", "pressure-tank 24 L from 2 bar to 3.5 bar")),
            .. If(Chance(40), $"daily {Pick("60", "100", "240", "500", "900")} L"),
            .. If(Chance(55), Pick("change-over gap 5 s", "change-over gap 30 s", "change-over gap 1 min", "change-over gap 5 min",
                $"change-over overlap {Pick("2 s", "5 s", "12 s", "1 min")}")),
            .. If(index > 0 && Chance(50), $"fed-by s{index - 1}"),
            .. If(Chance(70), "backflow atmospheric"),
            .. Chance(35) ? [$"tank {Pick("200", "400", "2000")} L", .. If(Chance(85), $"refill {Pick("0.5", "2", "6")} L/min{Levels()}"),
                .. If(Chance(50), "reserve 50 L")] : Array.Empty<string>(),
        ];

    private Statement Controller(int index) => new(
        $"controller c{index}",
        [
            new Statement("outputs 20"),
            .. If(Chance(40), $"stagger {Pick("100 ms", "300 ms", "1 s", "33.4 ms", "9 s", "40 s")}").Select(text => new Statement(text)),
            .. If(Chance(60), $"at most {_random.Next(1, 4)} zones").Select(text => new Statement(text)),
            .. If(Chance(66), $"schedules {Pick("never-overlap", "may-overlap")}").Select(text => new Statement(text)),
            .. Chance(_isLatching ? 95 : 80) ? [Block("power", Power())] : Array.Empty<Statement>(),
        ]);

    private string[] Power() =>
    [
        .. Chance(50)
            ? [$"transformer {Pick("6", "8", "10", "13", "20")} VA at 24 V"]
            : new[] { $"continuous {Pick("150", "220", "300", "369", "370", "450", "600")} mA at 24 V",
                $"peak {Pick("400", "500", "550", "650", "800", "1000")} mA" },
        .. Chance(_isLatching ? 95 : 60)
            ? [$"capacitor {Pick("1000", "2200", "4700")} uF at {Pick("12", "24")} V",
            .. If(Chance(80), $"recharge {Pick("0.01 W", "0.05 W efficiency 80 %", "0.5 W efficiency 80 %", "2 W")}")] : Array.Empty<string>(),
    ];

    private Statement Zone(int index) => Block(
        _zones[index],
        [
            .. Switched(index, $"output {20 - index}{Wired()}",
                If(Chance(85), $"valve {(_isLatching ? Pick("click", "snap") : Pick("hum", "hum", "buzz", "click"))}")),
            .. If(_supplies > 1, $"supply s{_random.Next(_supplies)}"),
            .. If(Chance(95), $"flow {Pick("4", "6", "10", "10.5", "16", "21")} L/min"),
            .. If(Chance(70), $"rate {Pick("7", "12", "33.3")} mm/h"),
            .. If(_tanks.Count > 0 && _returns.Next(3) == 0, Returns()),
            .. If(Chance(20), $"trim {Percent()}"),
            .. If(Chance(20), $"shortest {Pick("20 s", "1 min")}"),
            .. If(Chance(40), $"longest {Pick("1 min", "5 min", "10 min", "15 min")}"),
            .. If(Chance(50), $"rest {Pick("10 s", "1 min", "5 min", "10 min", "1 h", "1 days")}"),
            .. If(Chance(40), $"never-dry-for {Pick("9 h", "26 h", "2 days", "4 days", "8 days")}"),
        ],
        "zone ");

    private string[] Switched(int index, string output, string[] valve) => _byHand.Contains(_zones[index]) ? ["hand-watered"] : [output, .. valve];

    private Statement Device(int index) => Block(
        $"{Pick("pump", "pump", "master")} d{index}",
        [
            $"output {Outputs(index)}",
            Chance(60) ? $"supply s{_random.Next(_supplies)}" : $"zones {string.Join(", ", SomeZones().Split(", ").Except(_byHand))}",
            Pick("load 60 mA", "load 100 mA", "valve hum", "valve click"),
            .. If(_more.Next(2) == 0, $"flow {_more.Next(4, 24)} L/min"),
            .. If(Chance(60), $"at most {_random.Next(1, 7)} starts an hour"),
            .. If(Chance(50), $"starts {Pick("2 s", "5 s", "20 s", "70 s")} {Pick("before", "after")} zones"),
            .. If(Chance(50), $"stops {Pick("2 s", "5 s", "20 s", "70 s")} {Pick("before", "after")} zones"),
            .. If(Chance(55), $"bridges gaps up to {Pick("5 s", "1 min", "10 min")}"),
        ]);

    private string Returns() => _tanks.Count == 0 ? "" : $"returns {20 * _returns.Next(1, 5)} % to {_tanks[_returns.Next(_tanks.Count)]}";

    private string Levels() => _more.Next(3) switch
    {
        0 => $" from {60 + _more.Next(40)} L to {110 + _more.Next(90)} L",
        _ => "",
    };

    /// <summary>An output, or one of each of two controllers.</summary>
    private string Outputs(int number)
    {
        var first = Wired();
        return first.Length == 0 || _more.Next(3) > 0 ? $"{number}{first}" : $"{number}{first}, {number} of c{(first[^1] == '0' ? 1 : 0)}";
    }

    private Statement Restriction(int index) => Block(
        $"restriction r{index}",
        [
            .. If(Chance(40), $"for {SomeZones()}"),
            .. If(Chance(30), $"from {DayOfYear(-20, 5)} to {DayOfYear(1, 20)}"),
            .. If(Chance(50), $"allow on {Days()}"),
            .. If(Chance(20), $"allow on {Days()}"),
            .. If(Chance(25), $"except {Days()}"),
            .. If(Chance(50), $"allow between {Hours()}"),
            .. If(Chance(20), $"allow between {Hours()}"),
            .. If(Chance(40), $"at most {_random.Next(1, 5)} days a week{PerZone()}"),
            .. If(Chance(40), $"at most {Pick("5 min", "15 min", "30 min", "2 h")} a day{PerZone()}"),
            .. If(Chance(30), $"at most {Pick("1", "2.5", "4", "12")} mm a day per zone"),
            .. If(Chance(40), $"at most {_random.Next(1, 3)} zones at a time"),
            .. If(Chance(30), $"exempt {Pick(_zones)}"),
            .. If(Chance(20), $"exempt {SomeZones()} from {Iso(_turn.PlusDays(_random.Next(-5, 5)))} for {_random.Next(1, 8)} days"),
            .. If(Chance(30), $"week starts {Pick(DayNames)}"),
        ]);

    private string PerZone() => Chance(50) ? " per zone" : "";

    private string Hours() => _random.Next(6) switch
    {
        0 => "06:00 and 10:00",
        1 => "20:00 and 09:00",
        2 => "22:00 and 24:00",
        3 => $"{Pick(Clocks[..9])} and {Pick(Clocks[12..])}",
        4 => $"sunset and {Pick("sunrise", "07:00")}",
        _ => $"{Pick("sunrise", "sunrise - 1 h", "20:00")} and {Pick("sunset", "sunset + 30 min", "sunrise + 2 h")}",
    };

    private Statement Schedule(int index)
    {
        var follows = index > 0 && Chance(20);
        var finishes = !follows && Chance(15);
        return new Statement(
            $"schedule p{index}",
            [
                .. Texts(
                [
                    .. If(!follows || Chance(30), Chance(35) ? "every day" : Chance(30) ? $"every {_random.Next(2, 6)} days" : $"on {Days()}"),
                    .. If(Chance(20), $"from {Season()}"),
                    .. If(Chance(20), $"except {Days()}"),
                    .. If(follows, $"start after p{_random.Next(Math.Max(1, index))}{Pick("", " + 1 min", " + 5 s", " + 1 h")}"),
                    .. If(finishes, $"finish by {Moment()}"),
                    .. If(!follows && !finishes, $"start at {Moment()}{(Chance(30) ? $", {Moment()}" : "")}{(Chance(20) ? $" on {Days()}" : "")}"),
                    .. If(Chance(15), $"start at {Moment()}"),
                    .. If(Chance(30),
                        $"repeat every {Pick("3 min", "5 min", "8 min", "10 min", "15 min", "20 min", "1 h", "5 h")} for {_random.Next(2, 5)} passes"),
                    .. If(Chance(10), $"cut off at {Pick(Clocks)}{Pick("", " next day")}"),
                    .. If(Chance(10), $"scale {Percent()}"),
                ]),
                new Statement("steps", [.. Steps()]),
            ]);
    }

    private IEnumerable<Statement> Steps()
    {
        for (var steps = _random.Next(1, 3); steps > 0; steps--)
        {
            switch (_random.Next(10))
            {
                case 0:
                    yield return new Statement($"pause {Pick("5 s", "1 min", "4 min", "20 min")}");
                    break;
                case 1:
                    yield return Block($"repeat {_random.Next(2, 4)} times", [.. Waterings(1), .. If(Chance(60), $"pause {Pick("3 s", "2 min")}")]);
                    break;
                case 2:
                    yield return Block($"cycle {Pick("2 min", "5 min", "8 min")} soak {Pick("10 s", "2 min", "10 min")}", Waterings(_random.Next(1, 3)));
                    break;
                case 3 when _hasSequence:
                    yield return new Statement("run round");
                    break;
                default:
                    yield return new Statement(Watering());
                    break;
            }
        }
    }

    private string[] Waterings(int count) => [.. Enumerable.Range(0, count).Select(_ => Watering())];

    private string Watering() =>
        $"water {List()} for " + (Chance(4)
            ? Pick("3 h", "13 h", "13 h", "26 h")
            : Pick("7 s", "11 s", "30 s", "95 s", "1 min", "2 min", "5 min", "6 min", "10 min", "10 min", "15 min", "20 min"));

    private string List()
    {
        var order = _zones.ToArray();
        _random.Shuffle(order);
        var text = order[0];
        foreach (var zone in order.Skip(1).Take(_random.Next(3))) text += Pick(" + ", ", ") + zone;
        return text;
    }

    private string SomeZones() => string.Join(", ", _zones.Take(_random.Next(1, _zones.Length + 1)));

    private string Days() => _random.Next(8) switch
    {
        0 => "odd days",
        1 => "even days",
        2 => $"{Iso(_turn.PlusDays(_random.Next(-3, 4)))}",
        3 => $"{DayOfYear(-6, -1)} to {DayOfYear(0, 6)}",
        4 => $"{Pick(DayNames)} to {Pick(DayNames)}",
        5 => "days 1, 15, 29, 31 of month",
        _ => $"{Pick(DayNames)}, {Pick(DayNames)}, {Pick(DayNames)}",
    };

    private string Season() => _random.Next(3) switch
    {
        0 => Iso(_from.PlusDays(_random.Next(-20, 10))),
        1 => $"{Iso(_from.PlusDays(_random.Next(-20, 5)))} to {Iso(_from.PlusDays(_random.Next(6, 14)))}",
        _ => $"{DayOfYear(-30, 3)} to {DayOfYear(4, 20)}",
    };

    private string Moment() => Chance(20) ? $"{Pick("sunrise", "sunset")}{Pick("", " + 10 min", " - 45 min", " + 6 h")}" : Pick(Clocks);

    private string Hold()
    {
        var from = _from.PlusDays(_random.Next(0, 10));
        return $"hold {(Chance(60) ? $"{Pick(_zones)} " : "")}from {Iso(from)}{(Chance(50) ? $" {Pick(Clocks)}" : "")} "
            + $"{Pick("for 1 days", "for 6 h", $"to {Iso(from.PlusDays(2))}", $"to {Iso(from.PlusDays(1))} {Pick(Clocks)}")} because \"kept dry\"";
    }

    private string Wired() => _controllers > 1 ? $" of c{_random.Next(_controllers)}" : "";

    private string Percent() => Pick("0 %", "12.5 %", "50 %", "80 %", "99.9 %", "100 %", "110 %", "150 %");

    private string DayOfYear(int least, int most)
    {
        var date = _turn.PlusDays(_random.Next(least, most + 1));
        return $"{date.Day.ToString(CultureInfo.InvariantCulture)} {MonthNames[date.Month - 1]}";
    }

    private bool Chance(int percent) => _random.Next(100) < percent;

    private T Pick<T>(params IReadOnlyList<T> from) => from[_random.Next(from.Count)];

    private static string[] If(bool isThere, string text) => isThere ? [text] : [];

    private static IEnumerable<Statement> Texts(string[] texts) => texts.Select(text => new Statement(text));

    private static Statement Block(string head, string[] texts, string before = "") => Statement.Block(before + head, Texts(texts));

    private static Statement Block(string head, string[] texts, bool distinctHeads) =>
        Statement.Block(head, Texts(distinctHeads ? [.. texts.DistinctBy(text => text.Split(' ')[0])] : texts));

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
