namespace WaterScript.Diagnostics;

/// <summary>Something the compiler or the linter can find. Everything a person reads about a rule is generated from it.</summary>
/// <param name="Slug">Its only name, as in <c>accept SLUG because "…"</c>: lower-case words joined by hyphens.</param>
/// <param name="Severity">How much its findings weigh.</param>
/// <param name="Title">A few words without a capital or a full stop, as the heading of a finding.</param>
/// <param name="Explanation">What it finds, why it matters in the garden and what to do, as Markdown.</param>
public sealed record Rule(string Slug, Severity Severity, string Title, string Explanation)
{
    /// <summary>Whether an <c>accept</c> may silence it. A file that cannot be read cannot be accepted.</summary>
    public bool CanBeAccepted { get; init; }
}
