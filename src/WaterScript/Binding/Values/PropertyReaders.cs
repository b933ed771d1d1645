using System.Collections.Immutable;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>An output of a controller as written: <c>2 of shed</c>.</summary>
internal readonly record struct OutputValue(int Number, NameNode? Controller, Location Origin);

/// <summary>Outputs as written: <c>8 of shed, 4 of barn</c>; at least one.</summary>
internal sealed record OutputsValue(ImmutableArray<OutputValue> Outputs);

/// <summary>A quantity and another that goes with it.</summary>
internal readonly record struct PairValue(Quantity First, Quantity Second);

/// <summary>A number of emitters and the flow of one.</summary>
internal readonly record struct EmittersValue(decimal Count, Quantity Flow);

/// <summary>A tank's content on a date.</summary>
internal readonly record struct ContentValue(Quantity Amount, LocalDate On);

/// <summary>A flow into a tank, and the levels at which it begins and ends; both or neither.</summary>
internal readonly record struct RefillValue(Quantity Flow, Quantity? From, Quantity? To);

/// <summary>A quantity with a share that goes with it.</summary>
internal readonly record struct ShareValue(Quantity Amount, decimal Percent);

/// <summary>A share of the water of a zone, and the supply that it comes back to, as written.</summary>
internal readonly record struct ReturnsValue(decimal Percent, NameNode Supply);

/// <summary>A share from a date on.</summary>
internal readonly record struct SinceValue(LocalDate From, decimal Percent);

/// <summary>Names of zones and groups, separated by commas, as written.</summary>
internal sealed record NamesValue(ImmutableArray<NameNode> Names);

/// <summary>Reads a value by its type in the schema.</summary>
internal static class PropertyReaders
{
    private const int MostOutputs = 4_096;

    /// <summary>Nearer to the ground no wind is measured, and the logarithm of FAO 56, eq. 47, comes near to zero.</summary>
    private static readonly Bounds HeightOfWind = new(0.5m, 200);

    /// <summary>Reads the value of a property by its type; null when it could not be read, which is reported.</summary>
    public static object? ValueOf(PropertyType type, RowCursor row) => type switch
    {
        AmountType amount => row.Quantity(amount.Dimension, amount.Bounds),
        TimeType time => time.Before.All(row.Expect) ? row.WholeSeconds() : null,
        ShortTimeType time => row.Milliseconds(time.Bounds),
        LeadType => Lead(row),
        ShareType share => row.Percent(share.Bounds),
        NumberType number => row.Number(number.Bounds),
        CountType count => Count(row, count),
        FlagType => row.IsAtEnd ? true : null,
        ReferenceType reference => ReferenceName(row, reference.What),
        WordType word => row.Choice(word.What, word.Words),
        ZoneNamesType => ZoneNames(row),
        DateType => row.Date(),
        TimeZoneType => TimeZone(row),
        PositionType => Position(row),
        PairType pair => Pair(row, pair),
        EmittersType => Emitters(row),
        OutputType => Output(row),
        OutputsType => Outputs(row),
        ContentType => Content(row),
        RefillType => Refill(row),
        CatchType => Catch(row),
        ReturnsType => Returns(row),
        PressureTankType => PressureTank(row),
        WireType => Wire(row),
        StartingCurrentType => StartingCurrent(row),
        RechargeType => Recharge(row),
        ChangeType => Change(row),
        SinceType since => Since(row, since.Bounds),
        WeatherType => Weather(row),
        BatteryType or ColdLossType or SolarPanelType or RenewedType => BatteryReaders.ValueOf(type, row),
        CurrencyType or BillsType or ChargeType or PriceType or OtherUseType => MoneyReaders.ValueOf(type, row),
        _ => throw new ArgumentOutOfRangeException(nameof(type)),
    };

    private static int? Count(RowCursor row, CountType type)
    {
        if ((type.Before is { } before && !row.Expect(before)) || row.Whole(1, type.Most) is not { } count) return null;
        if (type.Counted is { } counted && row.OneOf(counted.Several, counted.One) is null) return null;
        return type.After.All(row.Expect) ? count : null;
    }

    /// <summary>A name; words that go on from it are part of it, so that a name written in several is looked for as a whole.</summary>
    private static NameNode? ReferenceName(RowCursor row, string what)
    {
        var name = row.Name(what);
        if (row.IsAtEnd || row.Block?.Find(row.Left[0].Text) is not null || row.Left.Any(token => token.Kind != TokenKind.Word)) return name;
        while (name is not null && !row.IsAtEnd && row.Name(what) is { } more)
            name = new NameNode(TextSpan.Cover(name.Span, more.Span), $"{name.Text} {more.Text}");
        return name;
    }

    private static OutputValue? Output(RowCursor row)
    {
        var origin = row.Location;
        if (row.Whole(1, MostOutputs) is not { } number) return null;
        return new OutputValue(number, row.Accept("of") ? row.Name("the name of a controller") : null, origin);
    }

    /// <summary>Where there are several, each has a place of its own.</summary>
    private static OutputsValue? Outputs(RowCursor row)
    {
        var outputs = ImmutableArray.CreateBuilder<OutputValue>();
        do
        {
            var start = row.Position;
            if (Output(row) is not { } output) return null;
            outputs.Add(outputs.Count == 0 && row.IsAtEnd ? output : output with { Origin = output.Origin with { Span = row.SpanFrom(start) } });
        }
        while (row.AcceptNextOfList());
        return new OutputsValue(outputs.DrainToImmutable());
    }

    private static PairValue? Pair(RowCursor row, PairType type) =>
        row.Quantity(type.First, Bounds.Positive) is { } first && row.Expect("at") && row.Quantity(type.Second, Bounds.Positive) is { } second
            ? new PairValue(first, second)
            : null;

    private static ContentValue? Content(RowCursor row) =>
        row.Quantity(Dimension.Volume, Bounds.NotNegative) is { } amount && row.Expect("on") && row.Date() is { } date
            ? new ContentValue(amount, date)
            : null;

    private static RefillValue? Refill(RowCursor row)
    {
        if (row.Quantity(Dimension.Flow, Bounds.NotNegative) is not { } flow) return null;
        if (row.IsAtEnd) return new RefillValue(flow, From: null, To: null);
        if (!row.Expect("from") || row.Quantity(Dimension.Volume, Bounds.NotNegative) is not { } from || !row.Expect("to")) return null;
        return row.Quantity(Dimension.Volume, Bounds.Positive) is { } to ? new RefillValue(flow, from, to) : null;
    }

    private static ShareValue? Catch(RowCursor row) =>
        row.Quantity(Dimension.Area, Bounds.Positive) is { } area && row.Expect("at") && row.Percent(Bounds.ShareOfWhole) is { } percent
            ? new ShareValue(area, percent)
            : null;

    private static ReturnsValue? Returns(RowCursor row) =>
        row.Percent(Bounds.ShareOfWhole) is { } percent && row.Expect("to") && ReferenceName(row, "the name of a supply") is { } supply
            ? new ReturnsValue(percent, supply)
            : null;

    private static PressureTank? PressureTank(RowCursor row)
    {
        if (row.Quantity(Dimension.Volume, Bounds.Positive) is not { } volume) return null;
        if (row.IsAtEnd) return new PressureTank(volume, CutIn: null, CutOut: null);
        if (!row.Expect("from") || row.Quantity(Dimension.Pressure, Bounds.NotNegative) is not { } cutIn || !row.Expect("to")) return null;
        return row.Quantity(Dimension.Pressure, new Bounds(cutIn.InBase, IsAboveLeast: true)) is { } cutOut ? new PressureTank(volume, cutIn, cutOut) : null;
    }

    private static Wire? Wire(RowCursor row)
    {
        if (row.Quantity(Dimension.Length, Bounds.Positive) is not { } length) return null;
        var start = row.Position;
        if (row.Quantity(Dimension.WireSection, Bounds.Positive) is not { } section) return null;
        if (WireSizes.Has(section)) return new Wire(length, section, IsFlexible: row.Accept("flexible"), SharesReturn: row.Accept("shared-return"));
        row.FailRange(row.SpanFrom(start), $"no wire is made with {section}", $"next to it: {WireSizes.NextTo(section)}");
        return null;
    }

    private static StartingCurrent? StartingCurrent(RowCursor row) =>
        row.Quantity(Dimension.Current, Bounds.Positive) is { } current && row.Expect("for") && row.Milliseconds(StartingCurrentType.Bounds) is { } length
            ? new StartingCurrent(current, length)
            : null;

    private static ShareValue? Recharge(RowCursor row)
    {
        if (row.Quantity(Dimension.Power, Bounds.Positive) is not { } power) return null;
        if (!row.Accept("efficiency")) return new ShareValue(power, 100);
        return row.Percent(Bounds.ShareOfWhole) is { } percent ? new ShareValue(power, percent) : null;
    }

    private static ChangeOver? Change(RowCursor row)
    {
        if (row.OneOf("gap", "overlap") is not { } kind) return null;
        return row.WholeSeconds(ChangeType.Bounds) is { } length ? new ChangeOver(row.Location, length, kind == "overlap") : null;
    }

    private static EmittersValue? Emitters(RowCursor row)
    {
        if (row.Number(new Bounds(1, 1_000_000), isWhole: true) is not { } count || !row.Expect("at")) return null;
        return row.Quantity(Dimension.Flow, Bounds.Positive) is { } flow ? new EmittersValue(count, flow) : null;
    }

    /// <summary><c>5 s before zones</c>, as time after them.</summary>
    private static Duration? Lead(RowCursor row)
    {
        if (row.WholeSeconds() is not { } length || row.OneOf("before", "after") is not { } side || !row.Expect("zones")) return null;
        return side == "before" ? -length : length;
    }

    private static SinceValue? Since(RowCursor row, Bounds bounds) =>
        row.Date() is { } date && row.Percent(bounds) is { } percent ? new SinceValue(date, percent) : null;

    private static NamesValue? ZoneNames(RowCursor row)
    {
        var names = ImmutableArray.CreateBuilder<NameNode>();
        do
        {
            if (row.Name("the name of a zone") is not { } name) return null;
            names.Add(name);
        }
        while (row.AcceptNextOfList());
        return new NamesValue(names.DrainToImmutable());
    }

    private static DateTimeZone? TimeZone(RowCursor row)
    {
        var location = row.Location;
        if (row.Rest() is not { } name) return null;
        if (ListedZone(row.Scope.TimeZones, name) is { } zone)
        {
            if (name.StartsWith("Etc/GMT", StringComparison.Ordinal) && name.AsSpan().ContainsAny('+', '-')) ReportReversed(row.Scope, location, name);
            return zone;
        }

        ReportUnknownZone(row.Scope, location, name.Trim('"'));
        return null;
    }

    /// <summary>A zone of the data; for <c>UTC</c> and an offset providers make one up, which is none.</summary>
    private static DateTimeZone? ListedZone(IDateTimeZoneProvider timeZones, string name) =>
        name.StartsWith("UTC", StringComparison.Ordinal) && !timeZones.Ids.Contains(name) ? null : timeZones.GetZoneOrNull(name);

    /// <summary>Its place in full for a city alone; the nearest name for a slip in one; never another offset for an offset.</summary>
    private static void ReportUnknownZone(Scope scope, Location location, string name)
    {
        var heading = $"no time zone is called \"{name}\"";
        var city = name.Replace(' ', '_');
        var meant = scope.TimeZones.Ids.Where(id => !id.StartsWith("Etc/", StringComparison.Ordinal))
            .FirstOrDefault(id =>
            id.Equals(city, StringComparison.OrdinalIgnoreCase)
            || (id.Contains('/', StringComparison.Ordinal) && id.EndsWith('/' + city, StringComparison.OrdinalIgnoreCase)));
        if (meant?.Equals(name, StringComparison.OrdinalIgnoreCase) == true)
            scope.Report(Finding.At(ReadingRules.UnknownName, location, heading) with
            {
                Help = $"Write `{meant}`.",
                Fix = Fix.Safe($"write `{meant}`", location, meant),
            });
        else if (meant is not null) scope.ReportUncertain(location, heading, meant, [meant]);
        else if (name.Contains('/', StringComparison.Ordinal) && Spelling.Nearest(name, scope.TimeZones.Ids) is { } nearest
            && Spelling.IsCertain(name, nearest, [nearest]))
            scope.ReportUncertain(location, heading, name, [nearest]);
        else scope.Report(ReadingRules.UnknownName, location, heading, help: "Name the zone of a city, such as `Europe/Lisbon`.");
    }

    /// <summary>The sign of these names is the reverse of what people expect (IANA time zone database, file etcetera).</summary>
    private static void ReportReversed(Scope scope, Location location, string name)
    {
        var side = name.Contains('+', StringComparison.Ordinal) ? "behind" : "ahead of";
        var hours = name[(name.IndexOfAny(['+', '-']) + 1)..];
        scope.Report(ReadingRules.UnusualForm, location, $"{name} is {hours} h {side} UTC", "the sign is the reverse of the usual",
            "Name a city's zone, such as `Europe/Lisbon`.");
    }

    /// <summary><c>39.6 N 8.1 W 310 m</c></summary>
    private static Position? Position(RowCursor row)
    {
        if (row.Number(new Bounds(0, 90)) is not { } latitude || row.OneOf("N", "S") is not { } northSouth) return null;
        if (row.Number(new Bounds(0, 180)) is not { } longitude || row.OneOf("E", "W") is not { } eastWest) return null;
        Quantity? height = null;
        if (!row.IsAtEnd && (height = row.Quantity(Dimension.Length, new Bounds(-500, 9_000), mayBeNegative: true)) is null) return null;
        return new Position((double)(northSouth == "S" ? -latitude : latitude), (double)(eastWest == "W" ? -longitude : longitude), height);
    }

    /// <summary><c>16.1 C to 27.9 C, rain 4 mm, humidity 45 % to 85 %</c>, or <c>et 6.2 mm/day, rain 4 mm</c>.</summary>
    private static ClimateMonth? Weather(RowCursor row)
    {
        var month = new ClimateMonth(row.Location);
        do
        {
            if (WeatherItem(row, month) is not { } next) return null;
            month = next;
        }
        while (row.AcceptNextOfList());
        if (month is { Coldest: not null, Et: not null })
        {
            row.Scope.Report(ReadingRules.Contradiction, month.Origin, "both temperatures and et", help: "Give one of the two.");
        }
        else if (month is { Coldest: null } and not { HumidityLeast: null, Wind: null, Sun: null })
        {
            row.Scope.Report(ReadingRules.Missing, month.Origin, "humidity, wind and sun without temperatures", "nothing can be calculated from these alone",
                "Begin with the mean minimum and maximum, such as `16.1 C to 27.9 C`.");
        }

        return month;
    }

    private static ClimateMonth? WeatherItem(RowCursor row, ClimateMonth month)
    {
        if (row.Accept("rain")) return row.Quantity(Dimension.Depth, Bounds.NotNegative) is { } rain ? month with { Rain = rain } : null;
        if (row.Accept("et")) return row.Quantity(Dimension.DepthRate, Bounds.NotNegative) is { } et ? month with { Et = et } : null;
        if (row.Accept("wind")) return Wind(row, month);
        if (row.Accept("sun")) return row.Quantity(Dimension.Sunshine, new Bounds(0, 24)) is { } sun ? month with { Sun = sun } : null;
        if (row.Accept("humidity"))
        {
            return row.Percent(new Bounds(0, 100)) is { } least && row.Expect("to") && row.Percent(new Bounds(least, 100)) is { } greatest
                ? month with { HumidityLeast = least, HumidityGreatest = greatest }
                : null;
        }

        if (!row.IsAtNumber)
        {
            row.Fail("a temperature, or rain, et, humidity, wind or sun is missing here");
            return null;
        }

        var possible = new Bounds(-60, 60);
        return row.Quantity(Dimension.Temperature, possible, mayBeNegative: true) is { } coldest && row.Expect("to")
            && row.Quantity(Dimension.Temperature, possible with { Least = coldest.InBase }, mayBeNegative: true) is { } warmest
            ? month with { Coldest = coldest, Warmest = warmest }
            : null;
    }

    /// <summary><c>wind 2.1 m/s</c>, or <c>wind 10 km/h at 10 m</c>.</summary>
    private static ClimateMonth? Wind(RowCursor row, ClimateMonth month)
    {
        if (row.Quantity(Dimension.Wind, Bounds.NotNegative) is not { } wind) return null;
        if (!row.Accept("at")) return month with { Wind = wind };
        return row.Quantity(Dimension.Length, HeightOfWind) is { } height ? month with { Wind = wind, WindHeight = height } : null;
    }
}
