using System.Collections.Immutable;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>A list of switchings that was in the device, as the log names it.</summary>
/// <param name="Hash">Its hash, or the beginning of it, as the log has it.</param>
/// <param name="Match">Whether it is the list that the file gives.</param>
/// <param name="Controller">The one whose list alone it is; null for that of all, and where it is another.</param>
internal sealed record AuditedList(string Hash, ListMatch Match, Controller? Controller)
{
    /// <summary>The given list that it is; null where it is none.</summary>
    public GivenList? Given { get; init; }

    /// <summary>A chance beginning of so many hexadecimal digits is one in 4 thousand million.</summary>
    public const int FewestDigits = 8;

    /// <summary>Calculating the lists may be so many times the work of a check.</summary>
    private const int ChecksOfLists = 2;

    /// <summary>Compares hashes with the lists that there are, for all controllers together and for each alone.</summary>
    /// <param name="hashes">As the log has them.</param>
    /// <param name="lists">Gives the lists.</param>
    internal static ImmutableArray<AuditedList> Of(IEnumerable<string> hashes, Func<ImmutableArray<OwnList>?> lists)
    {
        var own = new Lazy<ImmutableArray<OwnList>?>(lists);
        return [.. hashes.Select(hash => Of(hash, own))];
    }

    /// <summary>The lists that a timetable gives; null where they are too much work to calculate beside an answer.</summary>
    internal static ImmutableArray<OwnList>? OwnOf(Site site, Horizon dates)
    {
        var meant = Timetable.Of(site, dates, new WorkBudget(ChecksOfLists * Limits.CheckWorkOf(site.SourceLength)));
        try
        {
            return [.. Controllers(site).Select(controller => new OwnList(TimetableCsv.HashOfSwitchings(meant, controller), controller))];
        }
        catch (WorkUsedUpException)
        {
            return null;
        }
    }

    private static AuditedList Of(string hash, Lazy<ImmutableArray<OwnList>?> known)
    {
        if (hash.Length < FewestDigits) return new AuditedList(hash, ListMatch.TooShort, null);
        if (known.Value is not { } lists) return new AuditedList(hash, ListMatch.TooLong, null);
        foreach (var own in lists)
        {
            if (own.Hash?.StartsWith(hash, StringComparison.OrdinalIgnoreCase) != true) continue;
            return new AuditedList(hash, own.Given is null ? ListMatch.Same : ListMatch.Given, own.Controller) { Given = own.Given };
        }

        return new AuditedList(hash, ListMatch.Other, null);
    }

    private static IEnumerable<Controller?> Controllers(Site site) => site.Controllers.Length > 1 ? [null, .. site.Controllers] : [null];
}

/// <summary>A list that a hash may be of.</summary>
/// <param name="Hash">Its hash; null where the file gives no such list.</param>
/// <param name="Controller">The one whose list alone it is; null for that of all.</param>
/// <param name="Given">The list, where it was given as such.</param>
internal sealed record OwnList(string? Hash, Controller? Controller, GivenList? Given = null);

/// <summary>Whether a list of switchings is the one that a file gives.</summary>
internal enum ListMatch
{
    /// <summary>It is.</summary>
    Same,

    /// <summary>It is one of the lists that were given.</summary>
    Given,

    /// <summary>It is another: of another file or version, or for other dates.</summary>
    Other,

    /// <summary>The log has too little of the hash to decide.</summary>
    TooShort,

    /// <summary>The list of the file is too much work to calculate beside the comparison.</summary>
    TooLong,
}
