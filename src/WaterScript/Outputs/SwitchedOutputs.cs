using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>What a device has to know of its outputs, once all openings have been added.</summary>
internal sealed class SwitchedOutputs
{
    private readonly Entry?[] _zones;
    private readonly Entry?[] _devices;

    /// <summary>The outputs of a site, on one controller or on all.</summary>
    public SwitchedOutputs(Site site, Controller? controller)
    {
        _zones = new Entry?[site.Zones.Length];
        _devices = new Entry?[site.Devices.Length];
        Entries = [.. WiredOutput.AllOf(site).Where(wired => controller is null || wired.Controller.Index == controller.Index).Select(wired => new Entry(wired))];
        foreach (var entry in Entries)
        {
            if (entry.Wired.Zone is { } zone) _zones[zone.Index] = entry;
            else _devices[entry.Wired.Device!.Index] = entry;
        }
    }

    /// <summary>By controller, then output.</summary>
    public ImmutableArray<Entry> Entries { get; }

    /// <summary>Adds an opening.</summary>
    public void Add(in Opening opening)
    {
        if ((opening.Zone >= 0 ? _zones[opening.Zone] : _devices[opening.Device]) is { } entry) entry.Add(opening);
    }

    /// <summary>The output that is switched.</summary>
    public Entry Of(in Switching switching) => (switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device])!;

    /// <summary>An output.</summary>
    internal sealed class Entry(WiredOutput wired)
    {
        /// <summary>How much longer than the longest opening a device lets an output stay on before it closes it by itself, so that no clock a little off does so (common practice).</summary>
        private const long SpareSeconds = 60;

        private const long SecondsInMinute = 60;
        private long _longest;

        /// <summary>What is wired to it.</summary>
        public WiredOutput Wired => wired;

        /// <summary>Length of its pulses, or null.</summary>
        public decimal? PulseMilliseconds { get; } = Measure.Milliseconds(wired.Pulse);

        /// <summary>The longest opening in whole minutes, rounded up, and some to spare; null where it is never open.</summary>
        public long? MaxOnSeconds => _longest == 0 ? null : ((_longest + SecondsInMinute - 1) / SecondsInMinute * SecondsInMinute) + SpareSeconds;

        /// <summary>Adds one of its openings.</summary>
        public void Add(in Opening opening) => _longest = Math.Max(_longest, opening.Seconds);
    }
}
