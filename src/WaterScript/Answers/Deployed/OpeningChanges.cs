using System.Collections.Immutable;
using NodaTime;
using WaterScript.Wording;

namespace WaterScript.Answers.Deployed;

/// <summary>Openings that change alike: of the same devices, by the same time, on the same dates.</summary>
/// <param name="Devices">What opens, in order of its first change.</param>
/// <param name="Opens">How much later the file opens, in seconds; null where only one of both opens it.</param>
/// <param name="Closes">How much later it closes; null likewise.</param>
/// <param name="Pairs">Each opening as the list has it and as the file has it; null for the one that has none.</param>
/// <param name="Dates">The dates.</param>
internal sealed record AlikeChange(
    ImmutableArray<OpenedDevice> Devices, long? Opens, long? Closes, ImmutableArray<(DeviceOpening? List, DeviceOpening? File)> Pairs,
    ImmutableArray<LocalDate> Dates)
{
    /// <summary>Whether only the list opens them.</summary>
    public bool IsOnlyInList => Pairs[0].File is null;

    /// <summary>Whether only the file does.</summary>
    public bool IsOnlyInFile => Pairs[0].List is null;
}

/// <summary>Which openings of a list the file has at other times, those that change alike together.</summary>
internal sealed class OpeningChanges
{
    private const int EveningHour = 18;
    private const int MorningHour = 6;
    private const int HoursOfHalfADay = 12;

    private readonly SiteWords _words;

    private OpeningChanges(ImmutableArray<DeviceOpening> list, ImmutableArray<DeviceOpening> file, SiteWords words)
    {
        _words = words;
        var pairs = PairsOf(list, file);
        AreNights = pairs.TrueForAll(pair => IsAtNight(pair.List) && IsAtNight(pair.File));
        Dates = [.. pairs.Select(DateOf).Distinct().Order()];
        All = [.. Alike(pairs)];
    }

    /// <summary>Them, in order of their first moment.</summary>
    public ImmutableArray<AlikeChange> All { get; }

    /// <summary>The dates of all; of nights, those on which they begin.</summary>
    public ImmutableArray<LocalDate> Dates { get; }

    /// <summary>Whether all of it is at night, so that what follows midnight is of the date before.</summary>
    public bool AreNights { get; }

    /// <summary>Compares.</summary>
    public static OpeningChanges Between(ImmutableArray<DeviceOpening> list, ImmutableArray<DeviceOpening> file, SiteWords words) => new(list, file, words);

    private static List<(DeviceOpening? List, DeviceOpening? File)> PairsOf(ImmutableArray<DeviceOpening> list, ImmutableArray<DeviceOpening> file)
    {
        var (onlyInList, onlyInFile) = (Without(list, file).ToLookup(opening => opening.Device), Without(file, list).ToLookup(opening => opening.Device));
        var pairs = new List<(DeviceOpening? List, DeviceOpening? File)>();
        foreach (var device in onlyInList.Concat(onlyInFile).Select(group => group.Key).Distinct())
            pairs.AddRange(Pair([.. onlyInList[device]], [.. onlyInFile[device]]));
        return [.. pairs.OrderBy(pair => Math.Min(pair.List?.From ?? long.MaxValue, pair.File?.From ?? long.MaxValue))];
    }

    private static IEnumerable<DeviceOpening> Without(ImmutableArray<DeviceOpening> openings, ImmutableArray<DeviceOpening> others)
    {
        var left = others.CountBy(opening => opening).ToDictionary();
        foreach (var opening in openings)
        {
            if (left.GetValueOrDefault(opening) is > 0 and var count) left[opening] = count - 1;
            else yield return opening;
        }
    }

    /// <summary>
    /// Pairs openings of one device, both in order: those within half a day of each other, the nearest of a few. What is left is in one of both only.
    /// </summary>
    private static IEnumerable<(DeviceOpening? List, DeviceOpening? File)> Pair(DeviceOpening[] list, DeviceOpening[] file)
    {
        const long halfADay = HoursOfHalfADay * 3600;
        var (one, other) = (0, 0);
        while (one < list.Length || other < file.Length)
        {
            if (one == list.Length) yield return (null, file[other++]);
            else if (other == file.Length) yield return (list[one++], null);
            else if (IsNearer(list, one + 1, file[other], list[one])) yield return (list[one++], null);
            else if (IsNearer(file, other + 1, list[one], file[other])) yield return (null, file[other++]);
            else if (Math.Abs(list[one].From - file[other].From) < halfADay) yield return (list[one++], file[other++]);
            else if (list[one].From < file[other].From) yield return (list[one++], null);
            else yield return (null, file[other++]);
        }
    }

    /// <summary>Whether the next one begins or ends nearer to another one.</summary>
    private static bool IsNearer(DeviceOpening[] openings, int next, DeviceOpening other, DeviceOpening than) =>
        next < openings.Length && Distance(openings[next], other) < Distance(than, other);

    private static long Distance(DeviceOpening one, DeviceOpening other) => Math.Min(Math.Abs(one.From - other.From), Math.Abs(one.To - other.To));

    private IEnumerable<AlikeChange> Alike(List<(DeviceOpening? List, DeviceOpening? File)> pairs) => pairs
        .GroupBy(pair => (Device: (pair.List ?? pair.File)!.Value.Device, Shift: ShiftOf(pair)))
        .Select(group => (group.Key.Device, group.Key.Shift, Pairs: group.ToImmutableArray(),
            Dates: group.Select(DateOf).Distinct().Order().ToImmutableArray()))
        .GroupBy(change => (change.Shift, Dates: string.Join(' ', change.Dates)))
        .Select(group => new AlikeChange([.. group.Select(change => change.Device)], group.Key.Shift.Opens, group.Key.Shift.Closes,
            [.. group.SelectMany(change => change.Pairs)], group.First().Dates));

    /// <summary>By how much an opening moves; of what only one of both has, which of them.</summary>
    private static (bool? IsList, long? Opens, long? Closes) ShiftOf((DeviceOpening? List, DeviceOpening? File) pair) => pair is ({ } list, { } file)
        ? (null, file.From - list.From, file.To - list.To)
        : (pair.List is not null, null, null);

    private LocalDate DateOf((DeviceOpening? List, DeviceOpening? File) pair)
    {
        var clock = _words.ClockAt((pair.List ?? pair.File)!.Value.From);
        return (AreNights ? clock.PlusHours(-HoursOfHalfADay) : clock).Date;
    }

    private bool IsAtNight(DeviceOpening? opening) =>
        opening is not { } there || _words.ClockAt(there.From).Hour is >= EveningHour or < MorningHour;
}
