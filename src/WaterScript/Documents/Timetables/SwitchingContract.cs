using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>
/// What a device may rely on (<c>docs/carrying-out-a-timetable.md</c>), verified row by row: times that fit and never go back, and
/// for each output an open, its close, and the next open, all with one kind of pulse. It is the last guard before the bytes.
/// </summary>
/// <param name="site">The site.</param>
/// <param name="isForDevice">Whether it is a list on its own, for a device that counts in 32 bits, and not part of a whole document.</param>
internal sealed class SwitchingContract(Site site, bool isForDevice)
{
    /// <summary>The last second that an unsigned number of 32 bits holds: 2106-02-07.</summary>
    public const long LastSecond = uint.MaxValue;

    private readonly Dictionary<(int Controller, int Output), (Switching Last, UsedOutput Entry)> _outputs = [];
    private readonly Dictionary<(int Controller, int Output), (Opening Last, UsedOutput Entry)> _openings = [];
    private long _last = long.MinValue;

    /// <summary>Verifies that the dates fit into the closing row.</summary>
    /// <exception cref="SwitchingContractException">They do not.</exception>
    public static void VerifyDates(Timetable timetable)
    {
        var (from, until) = Validity.Of(timetable);
        if (from < 0 || until > LastSecond) throw OutsideTime();
    }

    /// <summary>Verifies the next opening: one of the same output is over by then, even where a stagger leaves it no time to be on.</summary>
    /// <param name="opening">It.</param>
    /// <param name="entry">The output that it opens.</param>
    /// <exception cref="SwitchingContractException">It may not come next.</exception>
    public void Admit(in Opening opening, UsedOutput entry)
    {
        var key = (entry.Wired.Controller.Index, entry.Wired.Number);
        if (_openings.TryGetValue(key, out var before) && opening.From < before.Last.To)
            throw Broken(entry, opening.From, $"opens while it is open, for {Users(entry, before.Entry)}");
        _openings[key] = (opening, entry);
    }

    /// <summary>Verifies the next switching.</summary>
    /// <param name="switching">It.</param>
    /// <param name="entry">The output that it switches.</param>
    /// <exception cref="SwitchingContractException">It may not come next.</exception>
    public void Admit(in Switching switching, UsedOutput entry)
    {
        if (isForDevice && switching.Second is < 0 or > LastSecond) throw OutsideTime();
        if (switching.Milliseconds < _last) throw Broken(switching, entry, "goes back in time");
        _last = switching.Milliseconds;
        var key = (switching.Controller, switching.Output);
        if (_outputs.TryGetValue(key, out var before)) VerifyAfter(switching, entry, before.Last, before.Entry);
        else if (!switching.IsOpen) throw Broken(switching, entry, "is closed before it opens");
        _outputs[key] = (switching, entry);
    }

    /// <summary>Verifies that nothing stays open.</summary>
    /// <exception cref="SwitchingContractException">Something does.</exception>
    public void End()
    {
        foreach (var (last, entry) in _outputs.Values)
        {
            if (last.IsOpen) throw Broken(last, entry, "is never closed");
        }
    }

    private void VerifyAfter(in Switching switching, UsedOutput entry, in Switching before, UsedOutput user)
    {
        if (switching.IsOpen == before.IsOpen)
            throw Broken(switching, entry, $"{(switching.IsOpen ? "opens" : "closes")} twice in a row, for {Users(entry, user)}");
        if (!switching.IsOpen && switching.Opening != before.Opening)
            throw Broken(switching, entry, $"is closed for {entry.Wired.Name} while {user.Wired.Name} has it open");
        if (entry.Wired.IsLatching != user.Wired.IsLatching || entry.PulseMilliseconds != user.PulseMilliseconds)
            throw Broken(switching, entry, $"has two kinds of valve, those of {Users(entry, user)}");
        if (!switching.IsOpen && entry.MaxOnSeconds is { } most && switching.Milliseconds - before.Milliseconds > most * Switching.MillisecondsInSecond)
            throw Broken(switching, entry, "is open for longer than its max_on_s");
    }

    private static string Users(UsedOutput one, UsedOutput other) =>
        one == other ? one.Wired.Name : $"{other.Wired.Name} and {one.Wired.Name}";

    private SwitchingContractException Broken(in Switching switching, UsedOutput entry, string how) => Broken(entry, switching.Second, how);

    private SwitchingContractException Broken(UsedOutput entry, long second, string how)
    {
        Span<byte> buffer = stackalloc byte[Timestamps.Longest];
        var when = System.Text.Encoding.ASCII.GetString(new Timestamps(new ZoneClock(site.TimeZone)).Instant(second, buffer));
        return new SwitchingContractException($"output {entry.Wired.Number} of {entry.Wired.Controller.Name} {how}, at {when}");
    }

    private static SwitchingContractException OutsideTime() =>
        new("a list of switchings is for dates from 1970-01-02 to 2106-02-06, which fit into the 32 bits of a device's clock; choose other dates");
}
