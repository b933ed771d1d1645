using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Editing.Names;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a name stands for.</summary>
/// <param name="site">The site.</param>
internal sealed class ThingCards(EditedSite site)
{
    /// <summary>The card of a name; null for one that nobody knows.</summary>
    public Card? Of(NameUse use)
    {
        var span = use.Where.Span;
        if (use.Kind == NameKind.Rule) return RuleCard.Of(use, site);
        if (site.Names.DeclarationOf(use.Kind, use.Name) is not { } declared) return BuiltIn(use);
        if (use.Kind == NameKind.Let) return Let(declared, span);
        return (declared.Word, site.Site) switch
        {
            ("zone", { } model) when model.Zones.FirstOrDefault(zone => zone.Name == use.Name) is { } zone => Of(zone, span),
            ("pump" or "master" or "injector", { } model) when model.Devices.FirstOrDefault(device => device.Name == use.Name) is { } device =>
                Of(device, declared, span),
            ("schedule", { } model) when model.Schedules.FirstOrDefault(schedule => schedule.Name == use.Name) is { } schedule => Of(schedule, span),
            ("scale", { } model) when model.Scales.FirstOrDefault(scale => scale.Name == use.Name) is { } scale
                && site is { Nights: { } nights, Words: { } words } => new ScaleCards(nights, words).Of(scale, span),
            ("restriction", { } model) when model.Restrictions.FirstOrDefault(each => each.Name == use.Name) is { } restriction =>
                new RestrictionCards(site).Of(restriction, declared, span),
            _ => Written(declared, span),
        };
    }

    private static string Label(string? label) => label is null ? "" : $" \"{label}\"";

    private Card Of(Zone zone, TextSpan span)
    {
        string?[] facts =
        [
            zone.Controller is null ? "watered by hand" : zone.Output > 0 ? $"output {zone.Output} of {zone.Controller.Name}" : null,
            zone.Supply is { } supply ? $"supply {supply.Name}" : null,
            site.Words?.Rate(zone.MillimetresPerHour) ?? (zone.LitresPerMinute is { } flow ? site.Words?.Flow(flow) : null),
        ];
        return Card.Of(span, $"zone {zone.Name}", string.Join(", ", facts.OfType<string>().Prepend(Label(zone.Label))),
            [NextOf(zone), .. Sums(zone), GapsOf(zone)]);
    }

    private string? NextOf(Zone zone)
    {
        if (site is not { Nights: { } nights, Words: { } words }) return null;
        if (zone.IsSpare) return "Spare: wired but not in use";
        if (nights.NextOf(zone) is not { } day) return $"Not watered before {MomentWords.Date(nights.LookedUntil)}";
        var runs = nights.RunsOn(day).Where(run => run.Run.Zone == zone.Index && run.Run.End > nights.Now).ToList();
        if (runs.Count == 0) return null;
        var (first, last) = (runs[0].Run, runs[^1].Run);
        var schedule = nights.Site.Schedules[first.Schedule];
        var times = runs.Count > 1 ? $", {runs.Count} times" : "";
        var amount = words.Amount(zone, runs.Sum(run => run.Run.Seconds));
        var by = string.Create(CultureInfo.InvariantCulture, $"({schedule.Name}, line {runs[0].Step.Origin.Start.Line})");
        return $"Next: {words.Night(first.Start, last.End)}{times}{(amount.Length > 0 ? ", " + amount : "")} {by}";
    }

    private IEnumerable<string?> Sums(Zone zone)
    {
        if (site is not { Nights: { } nights, Year: { } year, Words: { } words } || nights.NextOf(zone) is not { } day) yield break;
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        var (monday, month) = (YearFigures.MondayOf(date), new NodaTime.LocalDate(date.Year, date.Month, 1));
        var (week, inMonth) = (year.Of(zone, monday, monday.PlusDays(7)), year.Of(zone, month, month.PlusMonths(1)));
        var monthName = CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(date.Month);
        var mondayName = CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(monday.Month);
        yield return $"Week of {monday.Day} {mondayName}: {Sum(zone, week, words)}. {monthName}: {Sum(zone, inMonth, words)}";
        yield return $"Year from {MomentWords.Date(year.YearFrom)[4..]}: {Sum(zone, year.Of(zone, year.YearFrom, year.YearFrom.PlusYears(1)), words)}";
    }

    private static string Sum(Zone zone, Watered watered, NightWords words) =>
        string.Join(", ", new[] { MomentWords.Times(watered.Times), words.Amount(zone, watered.Seconds) }.Where(text => text.Length > 0));

    /// <summary>What is not checked of it, by what would let it be.</summary>
    private string? GapsOf(Zone zone)
    {
        if (site is { Nights: not null, Lint: null }) return "Still checking";
        var gaps = (site.Lint?.NotChecked ?? []).Where(gap => gap.Of.IsEmpty || gap.Of.Any(thing => thing.Kind == "zone" && thing.Name == zone.Name));
        var sentences = gaps.GroupBy(gap => gap.Remedy).Select(group => $"{string.Join(", ", group.Select(gap => gap.What).Distinct())} ({group.Key})")
            .ToList();
        return sentences.Count == 0 ? null : $"Not checked: {string.Join(", ", sentences)}";
    }

    private Card Of(Device device, NameDeclaration declared, TextSpan span)
    {
        var wired = device.Output > 0 ? $", output {string.Join(", ", device.ByOutput().Select(each => $"{each.Output} of {each.Controller.Name}"))}" : "";
        var serves = $", serves {Phrases.Names([.. device.Zones.Select(zone => zone.Name)])}{(device.Supply is { } supply ? $" (all of {supply.Name})" : "")}";
        return Card.Of(span, $"{declared.Word} {device.Name}", $"{Label(device.Label)}{wired}{serves}", DeviceSums.Of(site, device));
    }

    private Card Of(Schedule schedule, TextSpan span)
    {
        if (site is not { Nights: { } nights, Words: { } words }) return Card.Of(span, $"schedule {schedule.Name}", Label(schedule.Label));
        if (schedule.IsManual) return Card.Of(span, $"schedule {schedule.Name}", $"{Label(schedule.Label)}, manual");
        var next = nights.NextOf(schedule) is { } day ? NightOf(schedule, day, nights, words) : $"Not due before {MomentWords.Date(nights.LookedUntil)}";
        var dates = site.Year is { } year
            ? $"{Phrases.Count(year.DatesOf(schedule).Count(), "date")} in the year from {MomentWords.Date(year.YearFrom)[4..]}" : null;
        return Card.Of(span, $"schedule {schedule.Name}", Label(schedule.Label), next, dates);
    }

    private static string NightOf(Schedule schedule, int day, SiteNights nights, NightWords words)
    {
        var runs = nights.RunsOn(day).Where(run => run.Run.Schedule == schedule.Index).ToList();
        if (runs.Count == 0) return $"Next: {NightWords.Date(day)}";
        var litres = NightSums.Litres(runs, nights.Site);
        return $"Next: {words.Night(runs[0].Run.PassStart, runs.Max(run => run.Run.End))}{(litres is null ? "" : $", {words.Litres(litres)}")}";
    }

    private Card Let(NameDeclaration declared, TextSpan span)
    {
        var source = declared.Where.Source;
        var uses = site.Names.UsesOf(NameKind.Let, declared.Name).Where(use => !use.IsDeclaration).Select(use => use.Where).ToList();
        var places = uses.Take(4).Select(place => string.Create(CultureInfo.InvariantCulture, $"line {place.Start.Line}"));
        var used = uses.Count == 0 ? "not used" : $"used {MomentWords.Times(uses.Count)}: {string.Join(", ", places)}{(uses.Count > 4 ? ", …" : "")}";
        return Card.Of(span, DisplayLine.CleanLine(source.Slice(declared.Node.Span)), $", {used}");
    }

    private static Card Written(NameDeclaration declared, TextSpan span)
    {
        var head = declared.Word == "group" ? DisplayLine.CleanLine(declared.Where.Source.Slice(declared.Node.Span)) : $"{declared.Word} {declared.Name}";
        return Card.Of(span, head, Label(declared.Label), string.Create(CultureInfo.InvariantCulture,
            $"{declared.Where.Source.Path}:{declared.Where.Start.Line}"));
    }

    /// <summary>Soils and plants that need no block.</summary>
    private static Card? BuiltIn(NameUse use) => use.Kind switch
    {
        NameKind.Soil when Agronomy.SoilTable.All.FirstOrDefault(soil => soil.Name == use.Name) is { } soil =>
            Card.Of(use.Where.Span, $"soil {soil.Name}", ", built in", BuiltInWords.Of(soil)),
        NameKind.Plants when Agronomy.PlantTable.All.FirstOrDefault(plants => plants.Name == use.Name) is { } plants =>
            Card.Of(use.Where.Span, $"plants {plants.Name}", ", built in", BuiltInWords.Of(plants)),
        _ => null,
    };
}
