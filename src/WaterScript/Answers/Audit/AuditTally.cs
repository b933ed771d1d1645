using System.Collections.Immutable;
using WaterScript.Answers.Audit.Water;
using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>Sums of an audit, and the first of each kind of watering, whatever the length of the log.</summary>
internal sealed class AuditTally(Site site)
{
    /// <summary>Hashes of lists that differ.</summary>
    private const int MostLists = 100;

    private readonly FirstInOrder<EntryKey, AuditEntry> _entries = new(AuditReport.MostEntries);
    private readonly FirstInOrder<EntryKey, AuditEntry> _notAsMeant = new(AuditReport.MostListed);
    private readonly FirstInOrder<EntryKey, AuditEntry> _notKnown = new(AuditReport.MostListed);
    private readonly AuditedDays _days = new();
    private readonly long[] _meantSeconds = new long[site.Zones.Length];
    private readonly long[] _notKnownSeconds = new long[site.Zones.Length];
    private readonly SortedDictionary<AuditClass, long> _counts = [];
    private readonly long[] _actualSeconds = new long[site.Zones.Length];
    private readonly decimal?[] _litres = new decimal?[site.Zones.Length];
    private readonly List<string> _lists = [];
    private readonly HashSet<string> _knownLists = new(StringComparer.OrdinalIgnoreCase);
    private decimal? _meter;
    private decimal? _metered;
    private string? _lastList;
    private long _sequence;

    /// <summary>Hashes of lists that the log names, in its order.</summary>
    public IReadOnlyList<string> Lists => _lists;

    /// <summary>Whether the log names more of them.</summary>
    public bool HasMoreLists { get; private set; }

    /// <summary>Rows that were used.</summary>
    public long Rows { get; private set; }

    /// <summary>Whether the log shows that all that was meant was done, skipped with a reason, or by hand.</summary>
    public bool IsAsMeant { get; private set; } = true;

    /// <summary>What meters that show a total went on by; null where none shows two.</summary>
    public decimal? MeterLitres => _metered;

    /// <summary>Waterings, the first of them.</summary>
    public AuditList<AuditEntry> Entries => Of(_entries);

    /// <summary>Those that were not done, and of which that is known.</summary>
    public AuditList<AuditEntry> NotAsMeant => Of(_notAsMeant);

    /// <summary>Those in holes of the log.</summary>
    public AuditList<AuditEntry> NotKnown => Of(_notKnown);

    /// <summary>What became of those of each schedule and date.</summary>
    public AuditList<AuditedDay> Days => _days.InOrder();

    /// <summary>How many there are of each class that there is.</summary>
    public ImmutableArray<(AuditClass Class, long Count)> Counts => [.. _counts.Select(count => (count.Key, count.Value))];

    /// <summary>How many were meant.</summary>
    public long MeantCount { get; private set; }

    /// <summary>Water of each zone.</summary>
    public ImmutableArray<AuditedWater> Water(WaterMeter meter) =>
        [.. site.Zones.Where(zone => zone is { IsSpare: false, IsHandWatered: false }).Select(zone => new AuditedWater(
            zone, _meantSeconds[zone.Index], _actualSeconds[zone.Index], _notKnownSeconds[zone.Index], Sum(_litres[zone.Index], meter.LitresOf(zone))))];

    /// <summary>Takes in a row.</summary>
    public void Add(LogEvent logged)
    {
        Rows++;
        if (logged.Zone >= 0 && logged.Litres is { } litres) _litres[logged.Zone] = (_litres[logged.Zone] ?? 0) + litres;
        if (logged.Meter is { } shown)
        {
            // A meter that shows less than before was set back, or is another.
            if (_meter is { } before) _metered = (_metered ?? 0) + Math.Max(0, shown - before);
            _meter = shown;
        }

        if (logged.List is { } list && !ReferenceEquals(list, _lastList)) AddList(_lastList = list);
    }

    /// <summary>Takes in that a valve was open.</summary>
    public void AddActual(Zone zone, long seconds) => _actualSeconds[zone.Index] += seconds;

    /// <summary>Takes in what became of a watering.</summary>
    public void Add(AuditEntry entry)
    {
        var key = new EntryKey(entry.From, entry.Zone.Index, !entry.IsMeant, _sequence++);
        _entries.Add(key, entry);
        if (entry.Class == AuditClass.NotKnown) _notKnown.Add(key, entry);
        else if (entry.Class != AuditClass.Done) _notAsMeant.Add(key, entry);
        IsAsMeant &= entry.Class is AuditClass.Done or AuditClass.Skipped or AuditClass.ByHand;
        _counts[entry.Class] = _counts.GetValueOrDefault(entry.Class) + 1;
        if (entry.IsMeant) MeantCount++;
        _meantSeconds[entry.Zone.Index] += entry.Seconds;
        if (entry is { Class: AuditClass.NotKnown or AuditClass.CloseNotSeen, ActualSeconds: null }) _notKnownSeconds[entry.Zone.Index] += entry.Seconds;
        _notKnownSeconds[entry.Zone.Index] += entry.NotKnownSeconds;
        if (entry.IsMeant) _days.Add(entry.Schedule, entry.Day, entry.Class);
    }

    private static decimal? Sum(decimal? own, decimal? shared) => own is null ? shared : own + (shared ?? 0);

    private static AuditList<AuditEntry> Of(FirstInOrder<EntryKey, AuditEntry> entries) => new([.. entries.InOrder()], entries.Count);

    private void AddList(string list)
    {
        if (_knownLists.Contains(list)) return;
        HasMoreLists = _lists.Count == MostLists;
        if (HasMoreLists) return;
        _knownLists.Add(list);
        _lists.Add(list);
    }

    /// <summary>In order of time, then of the zones; of one zone what was meant first.</summary>
    private readonly record struct EntryKey(long From, int Zone, bool IsNotMeant, long Sequence) : IComparable<EntryKey>
    {
        public int CompareTo(EntryKey other)
        {
            if (From != other.From) return From < other.From ? -1 : 1;
            if (Zone != other.Zone) return Zone < other.Zone ? -1 : 1;
            return IsNotMeant != other.IsNotMeant ? IsNotMeant.CompareTo(other.IsNotMeant) : Sequence.CompareTo(other.Sequence);
        }
    }
}
