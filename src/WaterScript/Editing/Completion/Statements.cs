using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Editing.Names;
using WaterScript.Language;

namespace WaterScript.Editing.Completion;

/// <summary>What a statement may begin with, at each place. No required number has a value: nothing waters that nobody has read.</summary>
internal static class Statements
{
    /// <summary>Other words of the trade for words of the language.</summary>
    private static readonly Dictionary<string, string> OtherWords = new(StringComparer.Ordinal)
    {
        ["starts"] = "lead",
        ["stops"] = "lag",
        ["zone"] = "station valve circuit area",
        ["schedule"] = "program timer plan",
        ["supply"] = "source tank well mains",
        ["hold"] = "pause off stop",
        ["scale"] = "percent share",
        ["cycle"] = "soak",
        ["stagger"] = "delay between",
        ["change-over"] = "gap overlap",
        ["closed"] = "winter off-season",
        ["plants"] = "crop",
        ["emitters"] = "drippers",
        ["pause"] = "wait delay",
    };

    /// <summary>At the top of a file.</summary>
    public static IEnumerable<Offer> AtTop(CursorPlace place, EditedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var output = Outputs.Free(site).FirstOrDefault(1);
        var valve = site.Names.Of(NameKind.Valve).Select(each => each.Name).FirstOrDefault("") is { Length: > 0 } only ? $"valve ${{4:{only}}}; " : "";
        var zone = site.Names.Of(NameKind.Zone).Select(each => each.Name).FirstOrDefault("zone");
        var hasSite = site.Names.Of(NameKind.Site).Any();
        if (!hasSite) yield return Snippet("site", "the site: time zone and first date",
            "site ${1:name} \"${2:Label}\" {\n  timezone   ${3:Europe/Lisbon}\n  effective  ${4}\n}");
        yield return Snippet("zone", "zone NAME { output … }",
            string.Create(CultureInfo.InvariantCulture, $"zone ${{1:name}} \"${{2:Label}}\" {{ output ${{3:{output}}}; {valve}flow ${{5}} L/min }}"));
        yield return Snippet("schedule", "when to water, and what",
            $"schedule ${{1:name}} {{\n  on ${{2:mon, wed, fri}}\n  start at ${{3:20:00}}\n  steps {{\n    water ${{4:{zone}}} for ${{5}} min\n  }}\n}}");
        yield return Snippet("sequence", "steps under a name", $"sequence ${{1:name}} {{\n  water ${{2:{zone}}} for ${{3}} min\n}}");
        yield return Snippet("supply", "where water comes from", "supply ${1:name} { flow ${2} L/min }");
        yield return Snippet("controller", "what switches outputs", "controller ${1:name} { outputs ${2:8} }");
        yield return Snippet("valve", "a kind of valve", "valve ${1:name} ${2|non-latching,latching|} { $3 }");
        yield return Snippet("pump", "runs because of its zones",
            string.Create(CultureInfo.InvariantCulture, $"pump ${{1:name}} {{ output ${{2:{output}}}; $3 }}"));
        yield return Snippet("group", "zones under a name", "group ${1:name} = $2");
        yield return Snippet("scale", "shares of the run times by month", "scale ${1:name} {\n  ${2:jul} ${3} %\n}");
        yield return Snippet("restriction", "when watering is allowed",
            "restriction ${1:name} \"${2:Label}\" {\n  for ${3:all}\n  allow between ${4:20:00} and ${5:09:00}\n}");
        yield return Snippet("hold", "no watering for a while", "hold ${1:all} from ${2} for ${3} days because \"$4\"");
        yield return Snippet("let", "a quantity or a date under a name", "let ${1:name} = $2");
        yield return Snippet("extra", "one pass outside the calendar", $"extra ${{1}} ${{2:20:00}} because \"$3\" {{ water ${{4:{zone}}} for ${{5}} min }}");
        var schedule = site.Names.Of(NameKind.Schedule).Select(each => each.Name).FirstOrDefault("schedule");
        yield return Snippet("skip", "leaves out the passes of a date", $"skip ${{1:{schedule}}} on ${{2}} because \"$3\"");
        var restriction = site.Names.Of(NameKind.Restriction).Select(each => each.Name).FirstOrDefault("restriction");
        yield return Snippet("keep", "all schedules keep to a restriction", $"keep to ${{1:{restriction}}}");
        yield return Snippet("days", "dates under a name", "days ${1:name} = $2");
        yield return Snippet("closed", "no watering in a season", "closed from ${1:20 oct} to ${2:5 apr} because \"$3\"");
        yield return Snippet("accept", "accepts what a rule finds", "accept ${1} because \"$2\"");
        foreach (var (word, detail) in ((string, string)[])[("include", "another file"), ("tariff", "what water costs"),
            ("master", "a master valve"), ("injector", "doses into the water"),
            ("soil", "a soil of the file's own"), ("plants", "plants of the file's own")])
            yield return Word(word, detail);
        if (!place.Stated.Contains("climate")) yield return Word("climate", "monthly means of the weather");
    }

    /// <summary>In a description: what is required, then what would let more be checked, then the rest; what is stated is left out.</summary>
    public static IEnumerable<Offer> InBlock(BlockSchema schema, CursorPlace place, EditedSite site)
    {
        ArgumentNullException.ThrowIfNull(schema);
        var name = place.Heads is [.., [_, var second, ..]] ? second.Text : "";
        var gaps = (site.Lint?.NotChecked ?? []).Where(gap => gap.Of.Any(thing => thing.Kind == place.Block && thing.Name == name)).ToLookup(gap => gap.Add);
        return schema.Properties.Where(property => property.MayRepeat || !place.Stated.Contains(property.Name))
            .Where(property => !IsInPlace(property, schema, place)).DistinctBy(property => property.Name)
            .OrderBy(property => property.IsRequired ? 0 : gaps.Contains(property.Name) ? 1 : 2)
            .Select(property => new Offer(property.Name,
                Clipped(gaps[property.Name].FirstOrDefault() is { } gap ? $"{Lower(property.Help)}; {gap.What} is not checked without"
                    : Lower(property.Help)), OfferKind.Property)
            {
                AlsoCalled = OtherWords.GetValueOrDefault(property.Name, ""),
                About = OfferCards.AboutProperty(schema, property),
            })
            .Concat(schema.Inner.Where(inner => !place.Stated.Contains(inner)).Select(inner => Word(inner, "")))
            .Append(Word("accept", "accepts what a rule finds"));
    }

    /// <summary>Whether another property is stated in the place of one: <c>hand-watered</c> in that of an output, or the other way about.</summary>
    private static bool IsInPlace(Property property, BlockSchema schema, CursorPlace place) =>
        (property.OrElse is { } other && place.Stated.Contains(other))
        || schema.Properties.Any(first => first.OrElse == property.Name && place.Stated.Contains(first.Name));

    /// <summary>In a schedule: nothing that contradicts what is stated.</summary>
    public static IEnumerable<Offer> InSchedule(CursorPlace place, EditedSite site)
    {
        bool Has(string word) => place.Stated.Contains(word);
        var zone = site.Names.Of(NameKind.Zone).Select(each => each.Name).FirstOrDefault("zone");
        var isManual = Has("manual");
        if (!isManual && !Has("every")) yield return Word("on", "days of the week, or dates");
        if (!isManual && !Has("on") && !Has("every")) yield return Word("every", "day, or so many days");
        if (!isManual && !Has("from")) yield return Word("from", "its season");
        if (!isManual)
        {
            yield return new Offer("start at", "when a pass begins", OfferKind.Word);
            yield return new Offer("finish by", "when a pass is over", OfferKind.Word);
            if (!Has("start")) yield return new Offer("start after", "when another schedule is over", OfferKind.Word);
            if (!Has("repeat")) yield return new Offer("repeat every", "more passes", OfferKind.Word);
        }

        if (!Has("steps")) yield return Snippet("steps", "what a pass does", $"steps {{\n  water ${{1:{zone}}} for ${{2}} min\n}}");
        if (!isManual)
        {
            yield return Word("except", "dates that are left out");
            if (!Has("cut")) yield return new Offer("cut off at", "when what still runs is cut", OfferKind.Word);
        }

        if (!isManual && site.Names.Of(NameKind.Restriction).Any())
            yield return new Offer("keep to", "leaves out what a restriction forbids", OfferKind.Word);
        if (!Has("scale")) yield return Word("scale", "its own share of the run times");
        if (!Has("note")) yield return Word("note", "a remark");
        yield return Word("accept", "accepts what a rule finds");
        if (place.Stated.IsEmpty) yield return Word("manual", "without a calendar");
    }

    /// <summary>Among steps.</summary>
    public static IEnumerable<Offer> InSteps(CursorPlace place, EditedSite site)
    {
        var zone = site.Names.Of(NameKind.Zone).Select(each => each.Name).FirstOrDefault("zone");
        yield return Word("water", "zones, for a time or with an amount");
        yield return Word("pause", "nothing, for a while");
        if (place.Block != "cycle")
        {
            yield return Snippet("cycle", "pieces with time to soak in between",
                $"cycle ${{1}} min soak ${{2}} min {{\n  water ${{3:{zone}}} for ${{4}} min\n}}");
            yield return Snippet("repeat", "steps several times over", "repeat ${1} times {\n  $2\n}");
        }

        if (site.Names.Of(NameKind.Sequence).Any()) yield return Word("run", "a sequence");
        if (place.Block == "sequence") yield return Word("accept", "accepts what a rule finds");
    }

    /// <summary>In a restriction.</summary>
    public static IEnumerable<Offer> InRestriction() =>
    [
        Word("for", "the zones that it binds"), Word("from", "its season"), new("allow between", "hours", OfferKind.Word),
            new("allow on", "days", OfferKind.Word),
        Word("except", "dates that are not allowed"), new("at most", "a limit", OfferKind.Word), Word("exempt", "zones that it does not bind"),
        new("week starts", "the first day of a week", OfferKind.Word), Word("accept", "accepts what a rule finds"),
    ];

    private static Offer Word(string word, string detail) => new(word, detail, OfferKind.Word) { AlsoCalled = OtherWords.GetValueOrDefault(word, "") };

    private static Offer Snippet(string word, string detail, string text) => new(word, detail, OfferKind.Snippet)
    {
        Snippet = text,
        AlsoCalled = OtherWords.GetValueOrDefault(word, ""),
    };

    private static string Lower(string help) => char.ToLowerInvariant(help[0]) + help[1..].TrimEnd('.');

    private static string Clipped(string detail) => detail.Length <= 60 ? detail : detail[..59] + "…";
}
