using System.Collections.Immutable;
using WaterScript.Editing.Names;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Editing.Completion;

/// <summary>Finds what may come next at a place, from the schema and the grammar.</summary>
internal sealed class OfferFinder
{
    private static readonly string[] ZoneLists = ["water", "for", "exempt", "zones", "hold"];

    private readonly EditedSite _site;
    private readonly CursorPlace _place;
    private readonly Values _values;
    private readonly IReadOnlyList<string> _found;

    private OfferFinder(EditedSite site, CursorPlace place, ImmutableArray<Lexeme> lexemes, IReadOnlyList<string> found) =>
        (_site, _place, _values, _found) = (site, place, new Values(site, lexemes), found);

    /// <summary>What may come next at an offset; null in a text or a comment.</summary>
    /// <param name="site">The site.</param>
    /// <param name="source">The file.</param>
    /// <param name="lexemes">Its words.</param>
    /// <param name="offset">Where the cursor is.</param>
    /// <param name="found">The rules of what is found around it.</param>
    public static Offers? At(EditedSite site, SourceText source, ImmutableArray<Lexeme> lexemes, int offset, IReadOnlyList<string> found)
    {
        if (CursorPlace.At(source, lexemes, offset) is not { } place) return null;
        return new Offers(place.Replaced, [.. new OfferFinder(site, place, lexemes, found).Find().DistinctBy(offer => offer.Label)]);
    }

    private IEnumerable<Offer> Find()
    {
        if (_place.First == "accept") return Accept();
        return _place.Block switch
        {
            "" => _place.First.Length == 0 ? Statements.AtTop(_place, _site) : AtTop(),
            "schedule" => _place.First.Length == 0 ? Statements.InSchedule(_place, _site) : InSchedule(),
            "steps" or "sequence" or "cycle" or "repeat" or "extra" => _place.First.Length == 0 ? Statements.InSteps(_place, _site) : InSteps(),
            "restriction" => _place.First.Length == 0 ? Statements.InRestriction() : InRestriction(),
            _ => SchemaOf() is { } schema ? _place.First.Length == 0 ? Statements.InBlock(schema, _place, _site) : InProperty(schema) : [],
        };
    }

    private IEnumerable<Offer> Accept() => _place.Before.Length switch
    {
        1 => Values.Rules(_found),
        2 => Values.Words("because"),
        _ => Values.Words("until"),
    };

    private BlockSchema? SchemaOf()
    {
        var head = _place.Heads[^1];
        var kind = head is [{ Text: "valve" }, _, var type, ..] ? $"valve {type.Text}" : head is [var first, ..] ? first.Text : "";
        return Schema.Blocks.FirstOrDefault(schema => schema.Kind == kind);
    }

    private IEnumerable<Offer> AtTop() => _place.First switch
    {
        "group" when _place.Has("=") => ZonesOr("+", ","),
        "let" when _place.IsAfterNumber => _values.UnitsOf(Enum.GetValues<Dimension>()),
        "valve" when _place.Before.Length == 2 => Values.Words("non-latching", "latching"),
        "hold" when _place.Before.Length == 1 => [.. Values.Words("from"), .. _values.Zones(_place)],
        "hold" when _place.Has("from") => _place.IsAfterNumber ? _values.UnitsOf(Dimension.Time) : Values.Words("for", "to", "until lifted", "because"),
        "hold" => ZonesOr(",", "from"),
        "closed" => Values.Words(_place.Before.Length == 1 ? ["from"] : ["to", "because"]),
        "extra" => [.. _values.Times(), .. Values.Words("because")],
        "keep" => Keep(),
        _ => [],
    };

    private IEnumerable<Offer> InSchedule() => _place.First switch
    {
        "on" or "except" => _place.Last is "on" or "except" or "," ? _values.Days() : Values.Words(",", "to", "of month"),
        "every" => _place.IsAfterNumber ? Values.Words("days", "weeks") : _place.Last == "every" ? Values.Words("day", "2 days", "3 days", "2 weeks on")
            : Values.Words("on"),
        "from" => _place.IsAfterNumber ? Values.Words([.. MonthNames.All, "weeks", "days"]) : [.. Values.Words("to", "for"), .. _values.Names(NameKind.Let)],
        "start" or "finish" => Moment(),
        "repeat" => _place.Has("until") ? [.. _values.Times(), .. Values.Words("next day")]
            : _place.IsAfterNumber ? [.. _values.UnitsOf(Dimension.Time), .. Values.Words("passes")] : Values.Words("every", "for", "until"),
        "cut" => _place.Last == "cut" ? Values.Words("off at") : [.. _values.Times(), .. Values.Words("next day")],
        "scale" => _place.IsAfterNumber ? Values.Words("%") : _values.Names(NameKind.Scale),
        "keep" => Keep(),
        _ => [],
    };

    private IEnumerable<Offer> Keep() => _place.Last switch
    {
        "keep" => Values.Words("to"),
        "to" => _values.Names(NameKind.Restriction),
        _ => [],
    };

    private IEnumerable<Offer> Moment() => _place.Last switch
    {
        "start" => Values.Words("at", "after"),
        "finish" => Values.Words("by"),
        "after" => _values.Names(NameKind.Schedule),
        "at" or "by" or "," => _values.Times(),
        "on" => _values.Days(),
        _ => _place.IsAfterNumber ? _values.UnitsOf(Dimension.Time) : Values.Words("+", "-", ",", "on"),
    };

    private IEnumerable<Offer> InSteps() => _place.First switch
    {
        "water" when _place.Has("through") => Dose(),
        "water" when AmountWord == "for" => AmountOf(Dimension.Time),
        "water" when AmountWord == "with" => AmountOf(Dimension.Volume, Dimension.Depth),
        "water" => _place.Last is "water" or "," or "+" ? _values.Zones(_place)
            : [new Offer("for", "a time", OfferKind.Word), new Offer("with", "an amount", OfferKind.Word),
                .. _place.Has("for") || _place.Has("with") ? Values.Words("+") : Values.Words("+", ",")],
        "pause" => AmountOf(Dimension.Time),
        "cycle" => _place.IsAfterNumber ? _values.UnitsOf(Dimension.Time) : _place.Last == "cycle" ? Values.Words("auto") : Values.Words("soak"),
        "repeat" => _place.IsAfterNumber ? Values.Words("times") : [],
        "run" => _values.Names(NameKind.Sequence),
        _ => [],
    };

    /// <summary>The injector, then perhaps how much it doses.</summary>
    private IEnumerable<Offer> Dose()
    {
        var behind = _place.Before.Reverse().TakeWhile(lexeme => lexeme.Text != "through").Select(lexeme => lexeme.Text).ToList();
        if (behind.Count == 0) return _values.Devices("injector");
        if (!behind.Exists(word => word is "for" or "with"))
            return [new Offer("for", "a time", OfferKind.Word), new Offer("with", "an amount", OfferKind.Word)];
        return _place.IsAfterNumber ? _values.UnitsOf(behind.Contains("for") ? Dimension.Time : Dimension.Volume) : _values.Names(NameKind.Let);
    }

    /// <summary>The word before the amount that stands before the cursor, or has been begun: none again behind a plus that follows one.</summary>
    private string? AmountWord => _place.Before.Reverse().TakeWhile(lexeme => lexeme.Text != "+").Select(lexeme => lexeme.Text)
        .FirstOrDefault(word => word is "for" or "with");

    private IEnumerable<Offer> AmountOf(params Dimension[] dimensions)
    {
        if (_place.IsAfterNumber) return _values.UnitsOf(dimensions);
        var isBegin = _place.Last is "for" or "with" or "pause";
        return isBegin ? _values.Names(NameKind.Let) : _values.Devices("injector").Any() && _place.First == "water" ? Values.Words("through") : [];
    }

    private IEnumerable<Offer> InRestriction() => _place.First switch
    {
        "for" or "exempt" => ZonesOr(","),
        "allow" when _place.Last == "allow" => Values.Words("between", "on"),
        "allow" when _place.Has("on") => _values.Days(),
        "allow" => _place.Last is "between" or "and" ? _values.Times() : Values.Words("and"),
        "at" => _place.Last == "at" ? Values.Words("most") : _place.IsAfterNumber
            ? [.. Values.Words("days a week", "zones at a time"), .. _values.UnitsOf(Dimension.Time, Dimension.Depth)] : Values.Words("a day per zone"),
        "except" => _values.Days(),
        "from" => _place.IsAfterNumber ? Values.Words(MonthNames.All) : Values.Words("to"),
        "week" => _place.Last == "week" ? Values.Words("starts") : Values.Words(Binding.DayBinder.WeekdayNames),
        _ => [],
    };

    private IEnumerable<Offer> ZonesOr(params string[] words) =>
        ZoneLists.Contains(_place.Last) || _place.Last is "," or "+" or "=" ? _values.Zones(_place) : Values.Words(words);

    private IEnumerable<Offer> InProperty(BlockSchema schema)
    {
        var property = schema.Properties.FirstOrDefault(each => each.Name == _place.First);
        if (property is null) return [];
        var isFirst = _place.Before.Length == 1;
        return property.ValueType switch
        {
            ReferenceType reference when isFirst && NameDeclaration.KindOf(reference.What[(reference.What.LastIndexOf(' ') + 1)..]) is { } kind =>
                _values.Names(kind),
            OutputType => isFirst ? _values.OutputNumbers() : _place.Last == "of" ? _values.Names(NameKind.Controller) : Values.Words("of"),
            OutputsType => isFirst || _place.Last == "," ? _values.OutputNumbers() : _place.Last == "of" ? _values.Names(NameKind.Controller)
                : Values.Words(_place.IsAfterNumber ? "of" : ","),
            ZoneNamesType => ZonesOr(","),
            WordType words when isFirst => words.Words.Select(word => new Offer(word, "", OfferKind.Value)),
            AmountType amount when _place.IsAfterNumber => _values.UnitsOf(amount.Dimension),
            TimeType or ShortTimeType when _place.IsAfterNumber => _values.UnitsOf(Dimension.Time),
            TimeType time when !_place.IsAfterNumber && isFirst => time.Before.IsEmpty ? _values.Names(NameKind.Let)
                : Values.Words(string.Join(' ', time.Before)),
            LeadType => _place.IsAfterNumber ? _values.UnitsOf(Dimension.Time) : isFirst ? [] : Values.Words("before zones", "after zones"),
            ShareType or SinceType when _place.IsAfterNumber => Values.Words("%"),
            PairType pair when _place.IsAfterNumber => _values.UnitsOf(_place.Has("at") ? pair.Second : pair.First),
            PairType when !isFirst => Values.Words("at"),
            WireType when _place.IsAfterNumber => _values.UnitsOf(_place.Before.Length > 3 ? Dimension.WireSection : Dimension.Length),
            WireType when _place.Before.Length > 4 => Values.Words("flexible", "shared-return"),
            StartingCurrentType when _place.IsAfterNumber => _values.UnitsOf(_place.Has("for") ? Dimension.Time : Dimension.Current),
            StartingCurrentType when !isFirst => Values.Words("for"),
            ChangeType => isFirst ? Values.Words("gap", "overlap") : _place.IsAfterNumber ? _values.UnitsOf(Dimension.Time) : [],
            EmittersType => _place.Has("at") ? _values.UnitsOf(Dimension.Flow) : _place.IsAfterNumber ? Values.Words("at") : [],
            ContentType when _place.IsAfterNumber => _values.UnitsOf(Dimension.Volume),
            RefillType => _place.IsAfterNumber ? _values.UnitsOf(_place.Has("from") ? Dimension.Volume : Dimension.Flow)
                : isFirst || _place.Last is "from" or "to" ? [] : Values.Words(_place.Has("from") ? "to" : "from"),
            CatchType when _place.IsAfterNumber => _place.Has("at") ? Values.Words("%") : _values.UnitsOf(Dimension.Area),
            ReturnsType => _place.Last == "to" ? _values.Names(NameKind.Supply) : _place.IsAfterNumber ? Values.Words("%") : isFirst ? [] : Values.Words("to"),
            PressureTankType when _place.IsAfterNumber => _values.UnitsOf(_place.Has("from") ? Dimension.Pressure : Dimension.Volume),
            BatteryType => _place.Last == "of" ? _values.Names(NameKind.Controller) : isFirst ? Values.Words("of")
                : _place.IsAfterNumber ? _values.UnitsOf(_place.Has("at") ? Dimension.Voltage : Dimension.Charge) : Values.Words("at"),
            ColdLossType => _place.IsAfterNumber ? Values.Words("%") : isFirst ? [] : Values.Words("per C"),
            SolarPanelType => _place.IsAfterNumber
                ? _place.Has("efficiency") ? Values.Words("%") : _values.UnitsOf(_place.Has("tilt") ? Dimension.Angle : Dimension.Power)
                : isFirst ? [] : Values.Words("tilt", "efficiency"),
            RenewedType => isFirst ? Values.Words("on") : _place.IsAfterNumber ? Values.Words(MonthNames.All) : [],
            RechargeType => _place.IsAfterNumber ? _place.Has("efficiency") ? Values.Words("%") : _values.UnitsOf(Dimension.Power) : Values.Words("efficiency"),
            CountType count when isFirst && count.Before is { } before => Values.Words(before),
            _ => [],
        };
    }
}
