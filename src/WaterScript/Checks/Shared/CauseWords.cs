using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;

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

    /// <summary>What helps where too much is open at once.</summary>
    public static string WayOut(Cause cause) => cause.Places.Length == 1
        ? "Water them one after the other: write a comma in place of a plus."
        : $"Start \"{cause.Places[^1].Schedule.Name}\" later, or let it `start after {cause.Places[0].Schedule.Name}`.";
}
