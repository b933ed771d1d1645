using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Checks;

/// <summary>How a cause that goes over a limit is told.</summary>
internal static class CauseWords
{
    /// <summary>The finding, with its places and times; heading and way out are the rule's.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="survey">Knows names and clocks.</param>
    /// <param name="cause">The cause.</param>
    /// <param name="heading">What was found.</param>
    /// <param name="wanted">What is said at the step that is looked at.</param>
    /// <param name="limit">The limit and where it stands.</param>
    public static Finding FindingFor(Rule rule, Survey survey, Cause cause, string heading, string wanted, Label limit)
    {
        var places = cause.Places;
        var labels = places[^1].Labels(wanted).Concat(places[..^1].Reverse().SelectMany(place => place.Labels("at the same time as this"))).ToArray();
        var finding = new Finding(rule, heading, labels[0]) { Others = [.. labels[1..], limit] };
        return survey.Happening(finding, cause.First, cause.Last, cause.Times, cause.Days);
    }

    /// <summary><c>Bench A (output 1) 8.0, Bench B (output 2) 8.0</c>: what a sum is made of, greatest first.</summary>
    public static string Parts(Site site, ImmutableArray<Part> parts, Func<decimal, string>? amount = null) => Wording.Names(
        [.. parts.Where(part => part.Amount > 0).OrderByDescending(part => part.Amount).ThenBy(part => part.Zone).Select(part => amount is null ? NameOf(site, part) : $"{NameOf(site, part)} {amount(part.Amount)}")]);

    private static string NameOf(Site site, Part part)
    {
        var (name, output) = part.Zone >= 0
            ? (site.Zones[part.Zone].DisplayName, site.Zones[part.Zone].Output)
            : (site.Devices[part.Device].DisplayName, site.Devices[part.Device].Output);
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} (output {output})");
    }

    /// <summary><c>up to 39.0 L/min</c>: the greatest sum, of those that differ.</summary>
    public static string UpTo(Cause cause, string worst) => cause.IsSteady ? worst : $"up to {worst}";

    /// <summary><c>lawn (output 1) 20.0 L/min, beds (output 2) 19.0 L/min</c>, after when it was so where that is not the first time.</summary>
    public static string WorstParts(Survey survey, Cause cause, Func<decimal, string>? amount = null)
    {
        var parts = Parts(survey.Site, cause.Parts, amount);
        return cause.WorstAt == cause.First ? parts : $"Most {(survey.Manual is null ? "on " : "")}{survey.Moment(cause.WorstAt)}: {parts}";
    }

    /// <summary>The finding with what helps where too much is open at once: commas in one step, a later start of one of several schedules.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="survey">Tries later starts.</param>
    /// <param name="cause">The cause.</param>
    /// <param name="causes">All of the rule.</param>
    /// <param name="begin">Sets the rule to work.</param>
    public static Finding WithWayOut(Finding finding, Survey survey, Cause cause, Causes causes, Func<Survey, ICheck> begin)
    {
        if (cause.Places is [var only]) return finding with { WayOut = "Water them one after the other: write a comma in place of a plus.", Fix = OneByOne(only.Step) };
        var (first, last) = (cause.Places[0].Schedule.Name, cause.Places[^1].Schedule.Name);
        if (StartTrial.Best(survey, finding, cause, causes.All.Sum(other => other.Times), begin) is not var (start, left)) return finding with { WayOut = $"Start \"{last}\" later, or let it `start after {first}`." };
        return finding with { WayOut = $"Start \"{last}\" at {start.Time}, which {Cleared(cause, left)}, or let it `start after {first}`.", Fix = start.Fix };
    }

    /// <summary><c>clears it</c>, or <c>clears 75 of the 78</c>.</summary>
    public static string Cleared(Cause cause, long left) =>
        left == 0 ? "clears it" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"clears {cause.Times - left} of the {cause.Times}");

    /// <summary>Commas in place of the pluses of a step; null where it has none.</summary>
    public static Fix? OneByOne(Step step)
    {
        var (source, span) = step.Origin;
        var text = step.Origin.Text;
        if (text.Contains('#', StringComparison.Ordinal)) return null;
        var edits = text.Index().Where(letter => letter.Item == '+')
            .Select(letter => new TextEdit(new Location(source, TextSpan.FromBounds(span.Start + text[..letter.Index].TrimEnd().Length, span.Start + letter.Index + 1)), ","))
            .ToImmutableArray();
        return edits.IsEmpty ? null : new Fix("water them one after the other", IsSafe: false, edits);
    }
}
