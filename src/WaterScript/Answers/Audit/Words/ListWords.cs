using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Words;

/// <summary>How a report says whose list was in the device.</summary>
internal static class ListWords
{
    /// <summary>Digits of a hash that people compare.</summary>
    private const int Digits = 12;

    /// <summary>One sentence for one list, without its full stop.</summary>
    public static string Of(AuditReport report, AuditedList list)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(list);
        var given = list.Given?.Dates ?? report.ListDates;
        var (first, last) = (given.From, given.Until.PlusDays(-1));
        var dates = MomentWords.Date(first) + (last > first ? $" to {MomentWords.Date(last)}" : "");
        var ofController = list.Controller is { } controller ? $", of {controller.Name}" : "";
        return $"{(list.Hash.Length > Digits ? list.Hash[..Digits] : list.Hash)}, " + list.Match switch
        {
            ListMatch.Same => $"from this file, for {dates}{ofController}",
            ListMatch.Given => $"{list.Given!.File}, for {dates}{ofController}",
            ListMatch.TooShort => "too short to identify the list",
            ListMatch.TooLong => $"not compared: the list of this file for {dates} is too long; compare a part of it (--from and --days, as in compile), "
                + "or the hash that compile writes",
            _ when report.AreListsGiven => "not one of the lists that were given",
            _ => $"not the list of this file for {dates}: another file or version, or other dates"
                + (report.IsOfDeployed ? "" : " (give --from and --days as in compile)"),
        };
    }
}
