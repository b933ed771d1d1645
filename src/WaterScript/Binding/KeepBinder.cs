using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Which restrictions schedules keep to: all of them those at the top of a file, each those of its own.</summary>
/// <param name="restrictions">Those of the site.</param>
/// <param name="scope">Where findings go.</param>
internal sealed class KeepBinder(ImmutableArray<Restriction> restrictions, Scope scope)
{
    /// <summary>The schedules with what they keep to. Manual ones and passes outside the calendar keep to nothing.</summary>
    /// <param name="declarations">What the files hold.</param>
    /// <param name="schedules">The schedules.</param>
    public ImmutableArray<Schedule> Bind(Declarations declarations, ImmutableArray<Schedule> schedules)
    {
        ArgumentNullException.ThrowIfNull(declarations);
        ImmutableArray<Keeping> ofAll = [.. Distinct(declarations.All<KeepNode>().Select(placed => Of(placed.Node, placed.Source, isOfAll: true)))];
        var own = declarations.All<ScheduleNode>().ToLookup(placed => placed.At(placed.Node.Name.Span),
            placed => placed.Node.Body.OfType<KeepNode>().Select(keep => (Node: keep, placed.Source)));
        return [.. schedules.Select(schedule => schedule.IsManual || schedule.IsExtra ? schedule : schedule with
        {
            Keeps = [.. Distinct(ofAll.Concat(own[schedule.Origin].SelectMany(lines => lines).Select(line => Of(line.Node, line.Source, isOfAll: false))))],
        })];
    }

    private Keeping? Of(KeepNode node, SourceText source, bool isOfAll)
    {
        var name = node.Restriction.Text;
        if (restrictions.FirstOrDefault(restriction => restriction.Name == name) is { } found)
            return new Keeping(new Location(source, node.Span), found, isOfAll);
        scope.ReportUnknown(new Location(source, node.Restriction.Span), $"no restriction is called \"{name}\"", name,
            restrictions.Select(restriction => restriction.Name));
        return null;
    }

    /// <summary>Each restriction once; another line that names it is reported.</summary>
    private List<Keeping> Distinct(IEnumerable<Keeping?> lines)
    {
        var kept = new List<Keeping>();
        foreach (var line in lines.OfType<Keeping>())
        {
            if (kept.Find(other => other.Restriction.Origin == line.Restriction.Origin) is not { } first)
            {
                kept.Add(line);
                continue;
            }

            scope.Report(Finding.At(ReadingRules.StatedTwice, line.Origin, $"keeps to {line.Restriction.Name} twice", "the second time") with
            {
                Others = [new Label(first.Origin, first.IsOfAll && !line.IsOfAll ? "for all schedules" : "the first time")],
                Help = "Delete one of the two.",
            });
        }

        return kept;
    }
}
