using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>What a device has to know of its outputs, once all of a timetable has been added.</summary>
internal sealed class SwitchedOutputs
{
    private readonly UsedOutput?[] _zones;
    private readonly Dictionary<(int Device, int Controller), UsedOutput> _devices = [];

    /// <summary>The outputs of a site, on one controller or on all.</summary>
    public SwitchedOutputs(Site site, Controller? controller)
    {
        _zones = new UsedOutput?[site.Zones.Length];
        var wiring = WiredOutput.AllOf(site).Where(wired => controller is null || wired.Controller.Index == controller.Index);
        Entries = [.. wiring.GroupBy(wired => (wired.Controller.Index, wired.Number)).SelectMany(EntriesOf)];
        foreach (var entry in Entries)
        {
            if (entry.Wired.Zone is { } zone) _zones[zone.Index] = entry;
            else _devices[(entry.Wired.Device!.Index, entry.Wired.Controller.Index)] = entry;
        }
    }

    /// <summary>By controller, then output.</summary>
    public ImmutableArray<UsedOutput> Entries { get; }

    /// <summary>
    /// Adds what a timetable switches, and verifies on the way that it keeps to the contract. A stagger may keep a closing pulse waiting, so an
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
        foreach (var switching in timetable.SwitchingsOf(Added(openings, contract)))
        {
            var entry = Of(switching);
            entry.Longest.Add(switching);
            contract.Admit(switching, entry);
        }

        contract.End();
    }

    /// <summary>The output that is switched.</summary>
    public UsedOutput Of(in Switching switching) => switching.Zone >= 0 ? _zones[switching.Zone]! : _devices[(switching.Device, switching.Controller)];

    /// <summary>What two are wired to is one output, and is on as long as the longer of them needs it.</summary>
    private static IEnumerable<UsedOutput> EntriesOf(IEnumerable<WiredOutput> users)
    {
        var longest = new LongestOn();
        return users.Select(wired => new UsedOutput(wired, longest)).ToArray();
    }

    private IEnumerable<Opening> Added(IEnumerable<Opening> openings, SwitchingContract contract)
    {
        foreach (var opening in openings)
        {
            if ((opening.Zone >= 0 ? _zones[opening.Zone] : _devices.GetValueOrDefault((opening.Device, opening.Controller))) is { } entry)
            {
                contract.Admit(opening, entry);
                entry.Longest.Add(opening);
            }

            yield return opening;
        }
    }
}
