using System.Collections.Immutable;
using System.Globalization;
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
    private const int MostTerms = 4;

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
        var labels = places[^1].Labels(needed).Concat(places[..^1].Reverse().SelectMany(place => place.Labels("runs at the same time"))).ToArray();
        var finding = new Finding(rule, heading, labels[0]) { Others = [.. labels[1..], limit] };
        return context.Happening(finding, overload.OccurrenceCounter);
    }

    /// <summary><c>kale 11.0 + berries 9.5 = 20.5 L/min</c>: what the greatest sum is made of, greatest first.</summary>
    public static string Sum(Site site, Overload overload, Func<decimal, string> amount)
    {
        ArgumentNullException.ThrowIfNull(overload);
        ArgumentNullException.ThrowIfNull(amount);
        string[] terms = [.. Greatest(overload).Select(part => $"{NameOf(site, part)} {Phrases.Bare(amount(part.Amount))}")];
        return terms.Length == 1 ? $"{NameOf(site, Greatest(overload).First())} {amount(overload.Worst)}" : $"{Terms(terms)} = {amount(overload.Worst)}";
    }

    /// <summary><c>zone kale needs</c>, or <c>zones need</c>.</summary>
    public static string Needing(LintContext context, Overload overload) => Acting(context, overload, "needs", "need");

    /// <summary><c>zone kale closes</c>, or <c>2 valves close</c>.</summary>
    public static string Closing(LintContext context, Overload overload) => Acting(context, overload, "closes", "close");

    private static string Acting(LintContext context, Overload overload, string one, string many) =>
        Greatest(overload).Take(2).ToArray() is [{ Zone: >= 0 } only] ? $"zone {NameOf(context.Site, only)} {one}" : $"zones {many}";

    /// <summary>Up to four terms, or the first three and the number of others.</summary>
    private static string Terms(string[] terms) => terms.Length <= MostTerms
        ? string.Join(" + ", terms)
        : string.Create(CultureInfo.InvariantCulture, $"{string.Join(" + ", terms.Take(MostTerms - 1))} + {terms.Length - MostTerms + 1} more");

    private static IEnumerable<Contribution> Greatest(Overload overload) => overload.Contributions
        .Where(contribution => contribution.Amount > 0).OrderByDescending(contribution => contribution.Amount).ThenBy(contribution => contribution.Zone);

    private static string NameOf(Site site, Contribution contribution) =>
        contribution.IsRecharge ? "recharge" : contribution.Zone >= 0 ? site.Zones[contribution.Zone].Name : site.Devices[contribution.Device].Name;

    /// <summary><c>up to 39.0 L/min</c>: the greatest sum, of those that differ.</summary>
    public static string UpTo(Overload overload, string worst) => overload.IsSteady ? worst : $"up to {worst}";

    /// <summary><see cref="Sum"/>, after when it was so where that is not the first time.</summary>
    public static string WorstSum(LintContext context, Overload overload, Func<decimal, string> amount) =>
        When(context, overload) + Sum(context.Site, overload, amount);

    /// <summary><c>lawn, beds, herbs</c>, after when it was so where that is not the first time.</summary>
    public static string WorstNames(LintContext context, Overload overload) =>
        When(context, overload) + Phrases.Names([.. Greatest(overload).Select(part => NameOf(context.Site, part))]);

    private static string When(LintContext context, Overload overload) =>
        overload.WorstAt == overload.OccurrenceCounter.First ? "" : $"Most {(context.Manual is null ? "on " : "")}{context.Moment(overload.WorstAt)}: ";

    /// <summary>The finding with what helps where too much is open at once: commas in one step, a later start of one of several schedules.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="context">Tries later starts.</param>
    /// <param name="overload">The cause.</param>
    /// <param name="overloads">All of the rule.</param>
    /// <param name="create">Sets the rule to work.</param>
    public static Finding WithHelp(Finding finding, LintContext context, Overload overload, Overloads overloads, Func<LintContext, IRule> create)
    {
        if (overload.Places is [var only])
            return finding with { Help = "Water them one after the other.", Fix = OneByOne(only.Step) };
        var last = overload.Places[^1].Schedule;
        var after = FollowingStart.Of(last, overload.Places[0].Schedule);
        if (StartTrial.Best(context, finding, overload, overloads.All.Sum(other => other.Times), create) is not var (start, left))
            return finding with { Help = $"Start {last.Name} later.", OtherFix = after };
        return finding with { Help = $"Start {last.Name} at {start.Time}, which {Cleared(overload, left)}.", Fix = start.Fix, OtherFix = after };
    }

    /// <summary><c>clears it</c>, or <c>clears 75 of the 78</c>.</summary>
    public static string Cleared(Overload overload, long left) =>
        left == 0 ? "clears it" : string.Create(CultureInfo.InvariantCulture, $"clears {overload.Times - left} of the {overload.Times}");

    /// <summary>Commas in place of the pluses of a step; null where it has none, and where others with other lengths begin with it.</summary>
    public static Fix? OneByOne(Step step)
    {
        if (step is WaterStep { IsBesideOthers: true }) return null;
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
