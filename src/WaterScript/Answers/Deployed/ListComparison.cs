using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Deployed;

/// <summary>A list that is deployed, beside the one that a site gives in its place.</summary>
/// <param name="List">The list.</param>
/// <param name="Dates">The dates that it is for.</param>
/// <param name="File">The list that the site gives.</param>
/// <param name="OnlyInList">Rows that only the list has, in order.</param>
/// <param name="OnlyInFile">Rows that only the site gives, in order.</param>
internal sealed record ListComparison(
    DeployedList List, Horizon Dates, DeployedList File, ImmutableArray<DeployedListRow> OnlyInList, ImmutableArray<DeployedListRow> OnlyInFile)
{
    /// <summary>Whether the site gives the same list, by its hash.</summary>
    public bool IsSame => File.Hash == List.Hash;

    /// <summary>Whether both have the same rows, apart from their numbers and guards.</summary>
    public bool HasSameRows => OnlyInList.IsEmpty && OnlyInFile.IsEmpty;

    /// <summary>When the first row is that only one of them has, in Unix seconds; null where there is none.</summary>
    public long? FirstDifferent => HasSameRows ? null : OnlyInList.Concat(OnlyInFile).Min(row => row.At);

    /// <summary>How many rows lie between them: a row at another moment is one.</summary>
    public int Apart => Math.Max(OnlyInList.Length, OnlyInFile.Length);

    /// <summary>Whether a device with the list does from a moment on what the site says.</summary>
    public bool IsSameFrom(long now) => IsSame || (HasSameRows ? List.Until <= now : OnlyInList.Concat(OnlyInFile).All(row => row.At < now));

    /// <summary>Compares.</summary>
    /// <param name="list">The list.</param>
    /// <param name="site">The site.</param>
    /// <param name="budget">Counts the work of expanding the site; null where nobody counts.</param>
    /// <exception cref="SwitchingContractException">The site gives no list of switchings for these dates.</exception>
    /// <exception cref="WorkUsedUpException">That is too much work.</exception>
    public static ListComparison Of(DeployedList list, Site site, WorkBudget? budget = null)
    {
        ArgumentNullException.ThrowIfNull(list);
        ArgumentNullException.ThrowIfNull(site);
        var dates = list.DatesIn(site.TimeZone);
        var now = Now(list, Timetable.Of(site, dates, budget));
        return new ListComparison(list, dates, now, Without(list.Rows, now.Rows), Without(now.Rows, list.Rows));
    }

    private static DeployedList Now(DeployedList list, Timetable timetable)
    {
        var site = timetable.Site;
        var controller = site.Controllers.Length > 1 ? site.Controllers.FirstOrDefault(controller => controller.Name == list.Controller) : null;
        using var output = new MemoryStream();
        TimetableOutput.Write(timetable, OutputFormat.Csv, new OutputOptions { Only = list.Kind, Controller = controller }, output);
        output.Position = 0;
        using var text = new StreamReader(output);
        return DeployedList.Read(text.ReadToEnd());
    }

    /// <summary>Rows that are in one list more often than in another.</summary>
    private static ImmutableArray<DeployedListRow> Without(ImmutableArray<DeployedListRow> rows, ImmutableArray<DeployedListRow> others)
    {
        var left = others.CountBy(row => (row.At, row.What)).ToDictionary();
        var more = ImmutableArray.CreateBuilder<DeployedListRow>();
        foreach (var row in rows)
        {
            if (left.GetValueOrDefault((row.At, row.What)) is > 0 and var count) left[(row.At, row.What)] = count - 1;
            else more.Add(row);
        }

        return more.ToImmutable();
    }
}
