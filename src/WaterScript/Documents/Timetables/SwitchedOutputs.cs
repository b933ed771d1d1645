using System.Collections.Immutable;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>What a device has to know of its outputs, once all of a timetable has been added.</summary>
internal sealed class SwitchedOutputs
{
    private readonly Entry?[] _zones;
    private readonly Entry?[] _devices;

    /// <summary>The outputs of a site, on one controller or on all.</summary>
    public SwitchedOutputs(Site site, Controller? controller)
    {
        _zones = new Entry?[site.Zones.Length];
        _devices = new Entry?[site.Devices.Length];
        var wiring = WiredOutput.AllOf(site).Where(wired => controller is null || wired.Controller.Index == controller.Index);
        Entries = [.. wiring.GroupBy(wired => (wired.Controller.Index, wired.Number)).SelectMany(EntriesOf)];
        foreach (var entry in Entries)
        {
            if (entry.Wired.Zone is { } zone) _zones[zone.Index] = entry;
            else _devices[entry.Wired.Device!.Index] = entry;
        }
    }

    /// <summary>By controller, then output.</summary>
    public ImmutableArray<Entry> Entries { get; }

    /// <summary>
    /// Adds what a timetable switches, and verifies on the way that it keeps to the contract. A spacing may keep a closing pulse waiting, so an
    /// output may be on for longer than its opening lasts.
    /// </summary>
    /// <param name="timetable">The timetable.</param>
    /// <param name="openings">Its openings of these outputs, in their order.</param>
    /// <param name="isForDevice">Whether it is for a device, and so has to fit into its clock.</param>
    /// <exception cref="SwitchingContractException">It does not.</exception>
    public void Add(Timetable timetable, IEnumerable<Opening> openings, bool isForDevice)
    {
        if (isForDevice) SwitchingContract.VerifyDates(timetable);
        var contract = new SwitchingContract(timetable.Site, isForDevice);
        foreach (var switching in timetable.SwitchingsOf(Added(openings)))
        {
            var entry = Of(switching);
            entry.Longest.Add(switching);
            contract.Admit(switching, entry);
        }

        contract.End();
    }

    /// <summary>The output that is switched.</summary>
    public Entry Of(in Switching switching) => (switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device])!;

    /// <summary>What two are wired to is one output, and is on as long as the longer of them needs it.</summary>
    private static IEnumerable<Entry> EntriesOf(IEnumerable<WiredOutput> users)
    {
        var longest = new LongestOn();
        return users.Select(wired => new Entry(wired, longest)).ToArray();
    }

    private IEnumerable<Opening> Added(IEnumerable<Opening> openings)
    {
        foreach (var opening in openings)
        {
            if ((opening.Zone >= 0 ? _zones[opening.Zone] : _devices[opening.Device]) is { } entry) entry.Longest.Add(opening);
            yield return opening;
        }
    }

    /// <summary>The longest that an output is on.</summary>
    internal sealed class LongestOn
    {
        private long _openedAt;

        /// <summary>In seconds, rounded up; 0 where it is never on.</summary>
        public long Seconds { get; private set; }

        /// <summary>Adds an opening as it is meant.</summary>
        public void Add(in Opening opening) => Seconds = Math.Max(Seconds, opening.Seconds);

        /// <summary>Adds an opening or closing as it is carried out.</summary>
        public void Add(in Switching switching)
        {
            if (switching.IsOpen) _openedAt = switching.Milliseconds;
            else Seconds = Math.Max(Seconds, (switching.Milliseconds - _openedAt + Switching.MillisecondsInSecond - 1) / Switching.MillisecondsInSecond);
        }
    }

    /// <summary>An output and one that is wired to it.</summary>
    internal sealed class Entry(WiredOutput wired, LongestOn longest)
    {
        /// <summary>How much longer than the longest opening a device lets an output stay on before it closes it by itself, so that no clock a little off does so (common practice).</summary>
        private const long SpareSeconds = 60;

        private const long SecondsInMinute = 60;

        /// <summary>What is wired to it.</summary>
        public WiredOutput Wired => wired;

        /// <summary>Length of its pulses, or null.</summary>
        public decimal? PulseMilliseconds { get; } = Measure.Milliseconds(wired.Pulse);

        /// <summary>The longest that it is on.</summary>
        public LongestOn Longest => longest;

        /// <summary>The longest opening in whole minutes, rounded up, and some to spare; null where it is never open.</summary>
        public long? MaxOnSeconds => longest.Seconds == 0 ? null : ((longest.Seconds + SecondsInMinute - 1) / SecondsInMinute * SecondsInMinute) + SpareSeconds;
    }
}
