using NodaTime;
using WaterScript.Model;

namespace WaterScript.Tests.Simulation;

/// <summary>An opening as the reference has it, of a zone or of a device, and the output that it is of.</summary>
internal readonly record struct ReferenceOpening(long From, long To, int Zone, int Device, int Runs, int Controller, int Output);

/// <summary>The state of every output at every second, painted from the runs of the reference.</summary>
internal sealed class SecondBySecond
{
    /// <summary>Devices may start and stop this long before and after their zones.</summary>
    private const int Margin = 20_000;

    private readonly Site _site;
    private readonly IReadOnlyList<ReferenceRun> _runs;
    private readonly long _origin;
    private readonly int _seconds;

    private readonly int _first;

    private SecondBySecond(Site site, IReadOnlyList<ReferenceRun> runs, LocalDate from)
    {
        _site = site;
        _runs = runs;
        _origin = runs.Count == 0 ? 0 : runs.Min(run => run.Start) - Margin;
        _seconds = runs.Count == 0 ? 0 : (int)(runs.Max(run => run.End + run.Overlap) + Margin - _origin);
        _first = (int)Math.Clamp(site.TimeZone.AtStartOfDay(from).ToInstant().ToUnixTimeSeconds() - _origin, 0, _seconds);
    }

    /// <summary>The openings of all outputs, none of them of what is watered by hand, in order of their first second, then of controller and output.</summary>
    /// <param name="site">The site.</param>
    /// <param name="runs">Its runs.</param>
    /// <param name="from">Nothing is on before this date, a pump that leads its zones as little as any other.</param>
    public static List<ReferenceOpening> Openings(Site site, IReadOnlyList<ReferenceRun> runs, LocalDate from)
    {
        var simulation = new SecondBySecond(site, runs, from);
        return [.. site.Zones.Where(zone => zone.Controller is not null).SelectMany(simulation.OfZone)
            .Concat(site.Devices.SelectMany(simulation.OfDevice)).OrderBy(KeyOf)];
    }

    /// <summary>When zones are watered by hand, in the order in which that begins; no controller and no output has part in it.</summary>
    public static IEnumerable<ReferenceOpening> ByHand(Site site, IReadOnlyList<ReferenceRun> runs, LocalDate from)
    {
        var simulation = new SecondBySecond(site, runs, from);
        return site.Zones.Where(zone => zone.Controller is null).SelectMany(simulation.OfZone).OrderBy(KeyOf);
    }

    public static (long From, int Controller, int Output, int Zone, int Device) KeyOf(ReferenceOpening opening) =>
        (opening.From, opening.Controller, opening.Output, opening.Zone, opening.Device);

    /// <summary>The outputs of a device, and the zones that each is on for: those of its controller, the first also those of controllers without one.</summary>
    public static IEnumerable<(int Controller, int Output, Func<Zone, bool> Serves)> OutputsOf(Device device)
    {
        HashSet<int> others = [.. device.FurtherOutputs.Select(further => further.Controller.Index)];
        yield return (device.Controller.Index, device.Output, zone => !others.Contains(zone.Controller!.Index));
        foreach (var further in device.FurtherOutputs)
            yield return (further.Controller.Index, further.Number.Value, zone => zone.Controller!.Index == further.Controller.Index);
    }

    /// <summary>Openings of the outputs of one device as those of the device: those that overlap or touch are one.</summary>
    public static List<(long From, long To)> Together(IEnumerable<ReferenceOpening> openings)
    {
        var together = new List<(long From, long To)>();
        foreach (var opening in openings.OrderBy(opening => opening.From))
        {
            if (together.Count > 0 && together[^1].To >= opening.From) together[^1] = (together[^1].From, Math.Max(together[^1].To, opening.To));
            else together.Add((opening.From, opening.To));
        }

        return together;
    }

    private IEnumerable<ReferenceOpening> OfZone(Zone zone)
    {
        var runs = _runs.Where(run => run.Zone == zone.Index).ToList();
        var starts = StartsOf(runs);
        return Stretches(Painted(runs)).Select(stretch => new ReferenceOpening(
            _origin + stretch.From, _origin + stretch.To, zone.Index, -1, CountIn(starts, stretch), zone.Controller?.Index ?? -1, zone.Output));
    }

    private IEnumerable<ReferenceOpening> OfDevice(Device device) =>
        OutputsOf(device).SelectMany(output => OfOutput(device, output.Controller, output.Output, output.Serves));

    private List<ReferenceOpening> OfOutput(Device device, int controller, int output, Func<Zone, bool> serves)
    {
        var runs = CausesOf(device).Where(run => serves(_site.Zones[run.Zone])).ToList();
        var busy = Painted(runs);
        FillGaps(busy, Seconds(device.Bridges));
        var on = new bool[_seconds];
        var starts = StartsOf(runs);
        var causes = new List<(int From, int To, int Runs)>();
        foreach (var stretch in Stretches(busy))
        {
            var from = Math.Max(_first, stretch.From + Seconds(device.StartsAfter));
            var to = stretch.To + Seconds(device.StopsAfter);
            for (var second = from; second < to; second++) on[second] = true;
            if (from < to) causes.Add((from, to, CountIn(starts, stretch)));
        }

        return [.. Stretches(on).Select(stretch => new ReferenceOpening(
            _origin + stretch.From, _origin + stretch.To, -1, device.Index,
                causes.Where(cause => stretch.From <= cause.From && cause.To <= stretch.To).Sum(cause => cause.Runs), controller, output))];
    }

    /// <summary>What an injector doses into lies inside the runs that go through it; other devices run with their zones.</summary>
    private List<ReferenceRun> CausesOf(Device device)
    {
        if (device.Kind == DeviceKind.Injector)
        {
            var dosed = _runs.Where(run => run.Injector == device.Name)
                .Select(run =>
                    run with
                    {
                        Start = run.Start + Seconds(device.After ?? Duration.Zero),
                        End = run.Dose is { } dose ? run.Start + Seconds(device.After ?? Duration.Zero) + dose
                            : run.End - Seconds(device.Rinse ?? Duration.Zero),
                        Overlap = 0
                    });
            return [.. dosed.Where(run => run.Start < run.End)];
        }

        var zones = ZonesOf(device);
        return [.. _runs.Where(run => zones.Contains(run.Zone))];
    }

    /// <summary>A device on a supply serves what draws from it through a valve, also through supplies without a tank of their own.</summary>
    private HashSet<int> ZonesOf(Device device) => device.Supply is { } supply
        ? [.. _site.Zones.Where(zone => zone.Controller is not null && Draws(zone.Supply, supply)).Select(zone => zone.Index)]
        : [.. device.Zones.Select(zone => zone.Index)];

    public static bool Draws(Supply? from, Supply supply) =>
        from is not null && (from == supply || (from.Tank is null && Draws(from.FedBy, supply)));

    private bool[] Painted(IEnumerable<ReferenceRun> runs)
    {
        var on = new bool[_seconds];
        foreach (var run in runs)
        {
            for (var second = run.Start; second < run.End + run.Overlap; second++) on[second - _origin] = true;
        }

        return on;
    }

    private static void FillGaps(bool[] on, int longest)
    {
        var stretches = Stretches(on).ToList();
        foreach (var (before, after) in stretches.Zip(stretches.Skip(1)))
        {
            if (after.From - before.To <= longest) Array.Fill(on, true, before.To, after.From - before.To);
        }
    }

    private static IEnumerable<(int From, int To)> Stretches(bool[] on)
    {
        for (var from = Array.IndexOf(on, true); from >= 0;)
        {
            var to = Array.IndexOf(on, false, from);
            yield return (from, to);
            from = Array.IndexOf(on, true, to);
        }
    }

    private int[] StartsOf(IEnumerable<ReferenceRun> runs) => [.. runs.Select(run => (int)(run.Start - _origin)).Order()];

    private static int CountIn(int[] starts, (int From, int To) stretch) => FirstFrom(starts, stretch.To) - FirstFrom(starts, stretch.From);

    private static int FirstFrom(int[] starts, int second)
    {
        var index = Array.BinarySearch(starts, second);
        if (index < 0) return ~index;
        while (index > 0 && starts[index - 1] == second) index--;
        return index;
    }

    private static int Seconds(Duration duration) => (int)duration.TotalSeconds;
}
