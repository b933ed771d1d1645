using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Engine;

/// <summary>How a cause that goes over a limit is described.</summary>
internal static class OverloadWords
{
    /// <summary>The finding, with its places and times; heading and fix are the rule's.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="context">Knows names and clocks.</param>
    /// <param name="overload">The cause.</param>
    /// <param name="heading">What was found.</param>
    /// <param name="needed">What is said at the step that is looked at.</param>
    /// <param name="limit">The limit and where it stands.</param>
    public static Finding FindingFor(Rule rule, LintContext context, Overload overload, string heading, string needed, Label limit)
    {
        var places = overload.Places;
        var labels = places[^1].Labels(needed).Concat(places[..^1].Reverse().SelectMany(place => place.Labels("at the same time as this"))).ToArray();
        var finding = new Finding(rule, heading, labels[0]) { Others = [.. labels[1..], limit] };
        return context.Happening(finding, overload.OccurrenceCounter);
    }

    /// <summary><c>Bench A (output 1) 8.0, Bench B (output 2) 8.0</c>: what a sum is made of, greatest first.</summary>
    public static string Parts(Site site, ImmutableArray<Contribution> contributions, Func<decimal, string>? amount = null) => Phrases.Names(
        [.. contributions.Where(contribution => contribution.Amount > 0).OrderByDescending(contribution => contribution.Amount)
            .ThenBy(contribution => contribution.Zone)
            .Select(contribution => amount is null ? NameOf(site, contribution) : $"{NameOf(site, contribution)} {amount(contribution.Amount)}")]);

    private static string NameOf(Site site, Contribution contribution)
    {
        var (name, output) = contribution.Zone >= 0
            ? (site.Zones[contribution.Zone].DisplayName, site.Zones[contribution.Zone].Output)
            : (site.Devices[contribution.Device].DisplayName, site.Devices[contribution.Device].Output);
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} (output {output})");
    }

    /// <summary><c>up to 39.0 L/min</c>: the greatest sum, of those that differ.</summary>
    public static string UpTo(Overload overload, string worst) => overload.IsSteady ? worst : $"up to {worst}";

    /// <summary><c>lawn (output 1) 20.0 L/min, beds (output 2) 19.0 L/min</c>, after when it was so where that is not the first time.</summary>
    public static string WorstParts(LintContext context, Overload overload, Func<decimal, string>? amount = null)
    {
        var parts = Parts(context.Site, overload.Contributions, amount);
        return overload.WorstAt == overload.OccurrenceCounter.First
            ? parts
            : $"Most {(context.Manual is null ? "on " : "")}{context.Moment(overload.WorstAt)}: {parts}";
    }

    /// <summary>The finding with what helps where too much is open at once: commas in one step, a later start of one of several schedules.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="context">Tries later starts.</param>
    /// <param name="overload">The cause.</param>
    /// <param name="overloads">All of the rule.</param>
    /// <param name="create">Sets the rule to work.</param>
    public static Finding WithHelp(Finding finding, LintContext context, Overload overload, Overloads overloads, Func<LintContext, IRule> create)
    {
        if (overload.Places is [var only])
            return finding with { Help = "Water them one after the other: write a comma in place of a plus.", Fix = OneByOne(only.Step) };
        var (first, last) = (overload.Places[0].Schedule.Name, overload.Places[^1].Schedule.Name);
        if (StartTrial.Best(context, finding, overload, overloads.All.Sum(other => other.Times), create) is not var (start, left))
            return finding with { Help = $"Start \"{last}\" later, or let it `start after {first}`." };
        return finding with { Help = $"Start \"{last}\" at {start.Time}, which {Cleared(overload, left)}, or let it `start after {first}`.", Fix = start.Fix };
    }

    /// <summary><c>clears it</c>, or <c>clears 75 of the 78</c>.</summary>
    public static string Cleared(Overload overload, long left) =>
        left == 0 ? "clears it" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"clears {overload.Times - left} of the {overload.Times}");

    /// <summary>Commas in place of the pluses of a step; null where it has none.</summary>
    public static Fix? OneByOne(Step step)
    {
        var (source, span) = step.Origin;
        var text = step.Origin.Text;
        if (text.Contains('#', StringComparison.Ordinal)) return null;
        var edits = text.Index().Where(letter => letter.Item == '+')
            .Select(letter => new TextEdit(
                new Location(source, TextSpan.FromBounds(span.Start + text[..letter.Index].TrimEnd().Length, span.Start + letter.Index + 1)), ","))
            .ToImmutableArray();
        return edits.IsEmpty ? null : new Fix("water them one after the other", IsSafe: false, edits);
    }
}
