using System.Collections.Immutable;
using System.Text.RegularExpressions;
using WaterScript.Answers.Diff.Written;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>A finding of both versions that does not say the same in both.</summary>
/// <param name="Old">As it was.</param>
/// <param name="New">As it is.</param>
internal sealed record FindingTurn(Finding Old, Finding New)
{
    /// <summary>Whether its heading or its weight is another, and not only its details.</summary>
    public bool IsMore => Old.Heading != New.Heading || Old.Severity != New.Severity;
}

/// <summary>What two versions of a site have of findings that the other has not, whatever the layout and the file.</summary>
/// <param name="Appeared">Of the new version only.</param>
/// <param name="Gone">Of the old version only, and not accepted in the new one.</param>
/// <param name="Accepted">Of the old version, and accepted in the new one.</param>
/// <param name="Turned">Of both, with other numbers or at other times.</param>
internal sealed partial record FindingChanges(
    ImmutableArray<Finding> Appeared, ImmutableArray<Finding> Gone, ImmutableArray<AcceptedFinding> Accepted, ImmutableArray<FindingTurn> Turned)
{
    /// <summary>Nothing is compared.</summary>
    public static FindingChanges None { get; } = new([], [], [], []);

    /// <summary>Whether any finding is another, or happens at another time.</summary>
    public bool Any => Appeared.Length + Gone.Length + Accepted.Length + Turned.Length > 0;

    /// <summary>Compares what was found.</summary>
    /// <param name="old">The old version.</param>
    /// <param name="new">The new one.</param>
    /// <param name="names">What of the old one has another name.</param>
    public static FindingChanges Between(CheckedSite old, CheckedSite @new, Renames names)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        var (gone, appeared) = (old.Findings.ToList(), @new.Findings.ToList());
        var pairs = new List<(Finding Old, Finding New)>();
        foreach (var keyOf in Keys) Pair(gone, appeared, keyOf, names, pairs);
        var turned = pairs.Where(pair => Said(pair.Old, names) != Said(pair.New, names)).Select(pair => new FindingTurn(pair.Old, pair.New));
        var accepted = AcceptedOf(gone, @new.Accepted, names);
        return new FindingChanges([.. appeared], [.. gone], accepted, [.. turned]);
    }

    /// <summary>How findings are recognised, the surest way first.</summary>
    private static readonly Func<Finding, Renames, string>[] Keys = [KeyOf, KeyOfLine, KeyOfNumbers, KeyOfRule];

    /// <summary>Takes out of both lists what is alike, the first with the first.</summary>
    private static void Pair(
        List<Finding> old, List<Finding> @new, Func<Finding, Renames, string> keyOf, Renames names, List<(Finding Old, Finding New)> pairs)
    {
        if (old.Count == 0 || @new.Count == 0) return;
        var there = new Dictionary<string, Queue<Finding>>(StringComparer.Ordinal);
        foreach (var finding in @new)
        {
            var key = keyOf(finding, names);
            if (!there.TryGetValue(key, out var same)) there[key] = same = new Queue<Finding>();
            same.Enqueue(finding);
        }

        var found = new HashSet<Finding>(ReferenceEqualityComparer.Instance);
        foreach (var finding in old)
        {
            if (!there.TryGetValue(keyOf(finding, names), out var same) || !same.TryDequeue(out var other)) continue;
            pairs.Add((finding, other));
            found.Add(finding);
            found.Add(other);
        }

        old.RemoveAll(found.Contains);
        @new.RemoveAll(found.Contains);
    }

    private static ImmutableArray<AcceptedFinding> AcceptedOf(List<Finding> gone, ImmutableArray<AcceptedFinding> accepted, Renames names)
    {
        var found = new List<AcceptedFinding>();
        var left = accepted.ToList();
        gone.RemoveAll(finding =>
        {
            var key = KeyOf(finding, names);
            var index = left.FindIndex(other => KeyOf(other.Finding, names) == key);
            if (index < 0) return false;
            found.Add(left[index]);
            left.RemoveAt(index);
            return true;
        });
        return [.. found];
    }

    /// <summary>All that a finding says, without the names of files.</summary>
    private static string Said(Finding finding, Renames names)
    {
        var when = finding.Happens is { } happens ? MomentWords.When(happens) : finding.InPass;
        var said = $"{finding.Severity}\n{finding.Heading}\n{finding.Primary.Text}\n{finding.Details}\n{when}\n{finding.Assumed}";
        return Named(Place().Replace(said, ""), names);
    }

    private static string KeyOf(Finding finding, Renames names) =>
        $"{HeadOf(finding, names)}\n{Packed(Named(WrittenText.Of(finding.Primary.Location), names))}";

    private static string KeyOfLine(Finding finding, Renames names) => $"{HeadOf(finding, names)}\n{LineOf(finding, names)}";

    private static string KeyOfNumbers(Finding finding, Renames names) => $"{Number().Replace(HeadOf(finding, names), "")}\n{LineOf(finding, names)}";

    /// <summary>The same rule at the same line, whose numbers and reasons may be others.</summary>
    private static string KeyOfRule(Finding finding, Renames names) => $"{finding.Rule.Slug}\n{Quoted().Replace(LineOf(finding, names), "")}";

    private static string HeadOf(Finding finding, Renames names) => $"{finding.Rule.Slug}\n{Named(finding.Heading, names)}";

    /// <summary>The line of its place, of which only numbers, such as a time, may be others.</summary>
    private static string LineOf(Finding finding, Renames names)
    {
        var place = finding.Primary.Location;
        return Packed(Number().Replace(Named(place.Source.Slice(place.Source.LineSpan(place.Start.Line)), names), ""));
    }

    private static string Named(string text, Renames names) => names.IsEmpty ? text : Name().Replace(text, match => names.OfEither(match.Value));

    /// <summary>Blanks, line ends and semicolons are layout.</summary>
    private static string Packed(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter) && letter != ';'));

    /// <summary>A reason or a label.</summary>
    [GeneratedRegex("\"[^\"]*\"", RegexOptions.CultureInvariant)]
    private static partial Regex Quoted();

    /// <summary>Digits that are no part of a name.</summary>
    [GeneratedRegex("(?<![a-z0-9-])[0-9]+(\\.[0-9]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Number();

    /// <summary>A place that a finding refers to.</summary>
    [GeneratedRegex("[^\\s(]+\\.water:[0-9]+(:[0-9]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Place();

    [GeneratedRegex("[A-Za-z0-9-]+", RegexOptions.CultureInvariant)]
    private static partial Regex Name();
}
