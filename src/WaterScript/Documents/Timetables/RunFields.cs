using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>What the outputs say of a run, in the forms in which all of them say it. Holds one run at a time.</summary>
internal sealed class RunFields
{
    private readonly Timetable _timetable;
    private readonly Timestamps _timestamps;
    private readonly ZoneRates[] _rates;
    private readonly byte[] _from = new byte[Timestamps.Longest];
    private readonly byte[] _to = new byte[Timestamps.Longest];
    private readonly byte[] _day = new byte[Timestamps.DateLength];
    private readonly byte[] _passStart = new byte[Timestamps.Longest];
    private int _fromLength;
    private int _toLength;
    private int _passStartLength;

    /// <summary>For the runs of a timetable.</summary>
    public RunFields(Timetable timetable)
    {
        _timetable = timetable;
        _timestamps = new Timestamps(new ZoneClock(timetable.Site.TimeZone));
        _rates = [.. timetable.Site.Zones.Select(zone => new ZoneRates(zone))];
    }

    /// <summary>The run.</summary>
    public Run Run { get; private set; }

    /// <summary>Its zone.</summary>
    public Zone Zone => _timetable.Site.Zones[Run.Zone];

    /// <summary>Its schedule.</summary>
    public Schedule Schedule => _timetable.Site.Schedules[Run.Schedule];

    /// <summary>The path of its step.</summary>
    public string Step => _timetable.StepPath(Run);

    /// <summary>Its start.</summary>
    public ReadOnlySpan<byte> From => _from.AsSpan(0, _fromLength);

    /// <summary>Its end.</summary>
    public ReadOnlySpan<byte> To => _to.AsSpan(0, _toLength);

    /// <summary>The date that its pass belongs to.</summary>
    public ReadOnlySpan<byte> Day => _day;

    /// <summary>The start of its pass.</summary>
    public ReadOnlySpan<byte> PassStart => _passStart.AsSpan(0, _passStartLength);

    /// <summary>Depth of water before any loss, in mm, or null where the application rate is not known.</summary>
    public decimal? Millimetres => Measure.Hundredths(_rates[Run.Zone].MillimetresPerHour * Run.Seconds / 3600);

    /// <summary>Water in litres, or null where the flow is not known.</summary>
    public decimal? Litres => Measure.Hundredths(_rates[Run.Zone].LitresPerMinute * Run.Seconds / 60);

    /// <summary>Takes up a run.</summary>
    public void Take(in Run run)
    {
        Run = run;
        _fromLength = _timestamps.Instant(run.Start, _from).Length;
        _toLength = _timestamps.Instant(run.End, _to).Length;
        _passStartLength = _timestamps.Instant(run.PassStart, _passStart).Length;
        _timestamps.Date(run.Day, _day);
    }

    /// <summary>A zone's rates, calculated once.</summary>
    private readonly struct ZoneRates(Zone zone)
    {
        public decimal? LitresPerMinute { get; } = zone.LitresPerMinute;

        public decimal? MillimetresPerHour { get; } = zone.MillimetresPerHour;
    }
}
