using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>What an injector doses into a step: all the way, for a time, or an amount.</summary>
/// <param name="devices">Those of the site.</param>
/// <param name="scope">Where findings go.</param>
internal sealed class DoseBinder(IEnumerable<Device> devices, Scope scope)
{
    private const decimal SecondsInMinute = 60;

    private readonly Dictionary<string, Device> _injectors =
        devices.Where(device => device.Kind == DeviceKind.Injector).ToDictionary(device => device.Name, StringComparer.Ordinal);

    /// <summary>The injector, and what it doses where that has a size of its own; both null, and reported, where there is no such injector.</summary>
    public (string? Injector, SizedDose? Dose) Bind(DoseNode? node, SourceText source)
    {
        if (node is null) return default;
        var name = node.Injector.Text;
        if (_injectors.TryGetValue(name, out var injector)) return (name, DoseOf(node, injector, source));
        scope.ReportUnknown(new Location(source, node.Injector.Span), $"no injector is called \"{name}\"", name, _injectors.Keys);
        return default;
    }

    /// <summary>No injector stands before what somebody waters by hand.</summary>
    public void CheckServed(DoseNode node, IEnumerable<ZonePart> parts, SourceText source)
    {
        var byHand = parts.SelectMany(part => part.Zones.Select(zone => (zone, part.Origin))).FirstOrDefault(each => each.zone.IsHandWatered);
        if (byHand is not { zone: { } zone, Origin: var place }) return;
        scope.Report(Finding.At(ReadingRules.Contradiction, new Location(source, node.Injector.Span), $"zone {zone.Name} is hand-watered",
            "no injector stands before it") with
        {
            Others = [new Label(place, "watered here")],
            Help = $"Water {zone.Name} in a line of its own, without `through`.",
        });
    }

    /// <summary>Pieces of a cycle are many, and water that soaks is no rinse: a dose of a size of its own cannot stand among them.</summary>
    public void CheckCycle(ImmutableArray<Step> steps)
    {
        foreach (var step in steps)
        {
            foreach (var dose in Waterings.In([step]).Select(water => water.Dose).OfType<SizedDose>().DistinctBy(dose => dose.Origin).Take(1))
                scope.Report(Finding.At(ReadingRules.Contradiction, step is RunStep ? step.Origin : dose.Origin, "a dose of its own length in a cycle",
                    "would have to be split with the pieces") with
                {
                    Others = step is RunStep ? [new Label(dose.Origin, "the dose")] : [],
                    Help = "Leave out how much is dosed, or put the watering before or after the cycle.",
                });
        }
    }

    private SizedDose? DoseOf(DoseNode node, Device injector, SourceText source)
    {
        var origin = new Location(source, node.Span);
        if (node.For is not null)
            return RowCursor.Length(scope, source, node.For, "through feeder for 12 min") is { } time
                ? Sized(new SizedDose(origin, time, Amount: null, Rate: null, (long)time.TotalSeconds, Needs: 0), injector)
                : null;
        if (node.With is null || AmountOf(node.With, source) is not { } amount) return null;
        if (injector.Doses?.Value is not { } rate)
        {
            scope.Report(Finding.At(ReadingRules.Missing, new Location(source, node.With.Span),
                $"injector {injector.Name} does not say how much it doses in a time", "cannot become a time") with
            {
                Others = [new Label(injector.Origin, "the injector")],
                Help = "Add a line such as `doses 10 L/h` to it, or write how long it doses, such as `for 12 min`.",
            });
            return null;
        }

        var seconds = (long)decimal.Round(amount.InBase * SecondsInMinute / rate.InBase, MidpointRounding.AwayFromZero);
        return Sized(new SizedDose(origin, Time: null, amount, rate, Math.Max(1, seconds), Needs: 0), injector);
    }

    private static SizedDose Sized(SizedDose dose, Device injector) => dose with
    {
        Needs = dose.Seconds + (long)(injector.After?.Value.TotalSeconds ?? 0) + (long)(injector.Rinse?.Value.TotalSeconds ?? 0),
    };

    private Quantity? AmountOf(RowNode row, SourceText source)
    {
        var cursor = new RowCursor(scope, source, row, "through feeder with 2 L");
        var amount = cursor.AnyQuantity();
        cursor.End();
        if (cursor.HasFailed || amount is not { } given) return null;
        if (given is { Dimension: Dimension.Volume, Value: > 0 }) return given;
        scope.Report(ReadingRules.WrongUnit, new Location(source, row.Span), $"{source.Slice(row.Span)} is not an amount to dose", "a volume is needed",
            $"Write it in {Dimension.Volume.UnitList()}; for a time, write for.");
        return null;
    }
}
