using System.Collections.Immutable;
using System.Globalization;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>The clock shows otherwise from a second on.</summary>
/// <param name="At">Seconds since noon.</param>
/// <param name="By">What it is on beside the clock of noon, in seconds.</param>
internal readonly record struct NightShift(long At, long By);

/// <summary>A stretch of a night.</summary>
/// <param name="From">First second since noon.</param>
/// <param name="Until">The second after the last.</param>
internal readonly record struct NightSpan(long From, long Until);

/// <summary>A run, or passes that repeat alike; of what is not watered, a run that was due.</summary>
/// <param name="Zone">Index of its zone.</param>
/// <param name="Start">Seconds since noon.</param>
/// <param name="Length">Seconds, of each.</param>
/// <param name="Schedule">Index of its schedule.</param>
/// <param name="Pass">Number of its pass among those of the night.</param>
/// <param name="Place">Index of the place where its step is written.</param>
/// <param name="Step">The path of its step.</param>
/// <param name="Every">Seconds from one start to the next; 0 for one run.</param>
/// <param name="Times">How many.</param>
/// <param name="Water">What it gives, in words; why it is not watered.</param>
internal sealed record NightRow(int Zone, long Start, long Length, int Schedule, int Pass, int Place, string Step, long Every, int Times, string Water)
{
    /// <summary>Whether it is passes that repeat.</summary>
    public bool IsComb => Every > 0;

    /// <summary>Of what is not watered: why, in a word or two.</summary>
    public string Cause => Water.Split(':')[0];

    /// <summary>The second after the last.</summary>
    public long End => Start + (IsComb ? Every * (Times - 1) : 0) + Length;
}

/// <summary>A pump, a master valve or an injector, and when it is on.</summary>
/// <param name="Name">What people call it, with what it is.</param>
/// <param name="Total">How long in all, in words.</param>
/// <param name="Spans">When.</param>
internal sealed record NightDevice(string Name, string Total, ImmutableArray<NightSpan> Spans);

/// <summary>Hours in which a restriction allows no water.</summary>
/// <param name="Name">The restriction's.</param>
/// <param name="Zones">Indexes of the zones that it binds.</param>
/// <param name="Spans">When.</param>
internal sealed record NightForbidden(string Name, ImmutableArray<int> Zones, ImmutableArray<NightSpan> Spans);

/// <summary>A finding happens.</summary>
/// <param name="Number">Which, from 1.</param>
/// <param name="Zone">Index of the zone that it is about; -1 where it is about none.</param>
/// <param name="At">Seconds since noon.</param>
internal sealed record NightFinding(int Number, int Zone, long At);

/// <summary>A value at a second since noon.</summary>
internal readonly record struct NightPoint(long At, double Value);

/// <summary>A curve under the lanes.</summary>
/// <param name="Kind"><c>flow</c>, <c>level</c> or <c>power</c>; a level changes evenly between its points, the others in steps.</param>
/// <param name="Name">Of what.</param>
/// <param name="Note">What it comes to.</param>
/// <param name="Limit">Its limit, or null.</param>
/// <param name="LimitWords">The limit in words; may be empty.</param>
/// <param name="Zero">What stands at its foot.</param>
/// <param name="Greatest">What its height stands for, but for some room above.</param>
/// <param name="Points">In order of time.</param>
/// <param name="Rushes">What valves draw as they open.</param>
/// <param name="Beyond">When it is beyond its limit.</param>
internal sealed record NightPanel(
    string Kind, string Name, string Note, double? Limit, string LimitWords, string Zero, double Greatest, ImmutableArray<NightPoint> Points,
    ImmutableArray<NightPoint> Rushes, ImmutableArray<NightSpan> Beyond);

/// <summary>What stands in the columns at the right of a lane.</summary>
/// <param name="Zone">Index of the zone.</param>
/// <param name="Time">How long its valve is open.</param>
/// <param name="Water">What it gets.</param>
internal sealed record NightFigures(int Zone, string Time, string Water);

/// <summary>Sunrise or sunset in words, and when.</summary>
internal sealed record NightNote(string Words, long At);

/// <summary>A night from noon to noon, as it is drawn here and by the script of a page. Its times are seconds since its noon.</summary>
internal sealed record Night
{
    /// <summary>The second of the day at noon.</summary>
    public const int Noon = 43_200;

    private const int Day = 86_400;

    /// <summary>Its number in the picture, from 0.</summary>
    public required int Id { get; init; }

    /// <summary>Which, in words.</summary>
    public required string Title { get; init; }

    /// <summary>What happens in it: how much water, and why watering does not come.</summary>
    public string Words { get; init; } = "";

    /// <summary>From noon to noon: 23, 24 or 25 hours.</summary>
    public required long Length { get; init; }

    /// <summary>When the clock changes.</summary>
    public ImmutableArray<NightShift> Shifts { get; init; } = [];

    /// <summary>What is watered, by start.</summary>
    public ImmutableArray<NightRow> Rows { get; init; } = [];

    /// <summary>What was due and is not watered.</summary>
    public ImmutableArray<NightRow> Held { get; init; } = [];

    /// <summary>Sunset and sunrise.</summary>
    public ImmutableArray<NightNote> Sun { get; init; } = [];

    /// <summary>Whether the place is known, so that the sky is drawn.</summary>
    public bool HasSun { get; init; }

    /// <summary>From sunset to sunrise.</summary>
    public ImmutableArray<NightSpan> Dark { get; init; } = [];

    /// <summary>Devices that are on at some time.</summary>
    public ImmutableArray<NightDevice> Devices { get; init; } = [];

    /// <summary>What restrictions forbid.</summary>
    public ImmutableArray<NightForbidden> Forbidden { get; init; } = [];

    /// <summary>What is found, by time.</summary>
    public ImmutableArray<NightFinding> Findings { get; init; } = [];

    /// <summary>Flow, level and power.</summary>
    public ImmutableArray<NightPanel> Panels { get; init; } = [];

    /// <summary>The figures of each zone.</summary>
    public ImmutableArray<NightFigures> Figures { get; init; } = [];

    /// <summary>The curves that are shown: all, or only those that go beyond their limit.</summary>
    public IEnumerable<NightPanel> PanelsShown(bool hasAll) => hasAll ? Panels : Panels.Where(panel => !panel.Beyond.IsEmpty);

    /// <summary>Whether anything is watered or was due.</summary>
    public bool IsDry => Rows.IsEmpty && Held.IsEmpty;

    /// <summary>What the clock is on beside that of noon, in seconds.</summary>
    public long ShiftAt(double at)
    {
        var by = 0L;
        foreach (var shift in Shifts)
        {
            if (at >= shift.At) by = shift.By;
        }

        return by;
    }

    /// <summary>What the clock shows: <c>21:34</c>, with seconds where there are some.</summary>
    public string Clock(double at, bool withSeconds)
    {
        var second = (((Noon + (long)at + ShiftAt(at)) % Day) + Day) % Day;
        return second % 60 > 0 || withSeconds
            ? string.Create(CultureInfo.InvariantCulture, $"{second / 3600:00}:{second / 60 % 60:00}:{second % 60:00}")
            : string.Create(CultureInfo.InvariantCulture, $"{second / 3600:00}:{second / 60 % 60:00}");
    }

    /// <summary>When anything happens in it that has to be in sight.</summary>
    public IEnumerable<NightSpan> Busy() => Rows.Concat(Held).Select(row => new NightSpan(row.Start, row.End))
        .Concat(Devices.SelectMany(device => device.Spans))
        .Concat(Findings.Select(finding => new NightSpan(finding.At, finding.At)))
        .Select(span => new NightSpan(Math.Max(0, span.From), Math.Min(Length, span.Until)))
        .Where(span => span.Until >= span.From);
}
