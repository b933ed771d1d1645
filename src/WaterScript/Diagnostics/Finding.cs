using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>
/// One thing found, written so that it helps somebody who stands in the garden with a phone: a heading, the place with
/// a few words under it, perhaps further places, a sentence, and a fix.
/// </summary>
/// <param name="Rule">The rule that found it.</param>
/// <param name="Heading">A line without a capital or a full stop that names what was found: <c>no zone is called "lawm"</c>.</param>
/// <param name="Primary">The place that causes it.</param>
internal sealed record Finding(Rule Rule, string Heading, Label Primary)
{
    /// <summary>The rule's severity, unless the case is graver or lighter.</summary>
    public Severity Severity { get; init; } = Rule.Severity;

    /// <summary>Further places that explain it, such as the first of two equal names.</summary>
    public ImmutableArray<Label> Others { get; init; } = [];

    /// <summary>When it happens, for what happens in time.</summary>
    public Occurrences? Happens { get; init; }

    /// <summary>
    /// How far it is beyond its limit, or what it comes to where there is no limit, in a unit of its rule: greater is graver. Null where that is
    /// <see cref="Occurrences.Worst"/>, or is nothing that could be more.
    /// </summary>
    public decimal? Excess { get; init; }

    /// <summary>When it happens in a pass that somebody starts, as a sentence, in place of <see cref="Happens"/>; may be empty.</summary>
    public string InPass { get; init; } = "";

    /// <summary>Sentences under the excerpt, one a line; may be empty.</summary>
    public string Details { get; init; } = "";

    /// <summary>What was taken for granted because the source does not say it, as sentences, one a line; may be empty.</summary>
    public string Assumed { get; init; } = "";

    /// <summary>What to do about it, as an imperative sentence; may be empty.</summary>
    public string Help { get; init; } = "";

    /// <summary>A change that fixes it, where there is one.</summary>
    public Fix? Fix { get; init; }

    /// <summary>
    /// Another change, which loses no watering; it is named beside <see cref="Fix"/>, or takes its place, where trying it shows that it does no harm.
    /// </summary>
    public Fix? OtherFix { get; init; }

    /// <summary>A finding whose place needs no words of its own.</summary>
    public static Finding At(Rule rule, Location location, string heading, string label = "") =>
        new(rule, heading, new Label(location, label));
}
