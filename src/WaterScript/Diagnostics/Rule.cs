namespace WaterScript.Diagnostics;

/// <summary>Something the compiler or the linter can find. Everything a person reads about a rule is generated from it.</summary>
/// <param name="Slug">Its only name, as in <c>accept SLUG because "…"</c>: lower-case words joined by hyphens.</param>
/// <param name="Severity">How much its findings weigh.</param>
/// <param name="Title">A few words without a capital or a full stop, as the heading of a finding.</param>
internal sealed record Rule(string Slug, Severity Severity, string Title)
{
    /// <summary>What it is about.</summary>
    public required RuleCategory Category { get; init; }

    /// <summary>Whether an <c>accept</c> may silence it. A file that cannot be read cannot be accepted.</summary>
    public bool CanBeAccepted { get; init; }

    /// <summary>Whether it finds what is not used, so that another site which reads the same file may show that it is.</summary>
    public bool IsAboutUse { get; init; }

    /// <summary>
    /// The rule whose finding at the same place, or with the same edit, has the same cause, so that it is enough to name this one beside it; may be empty.
    /// </summary>
    public string GoesWith { get; init; } = "";

    /// <summary>What it finds, as Markdown.</summary>
    public required string Finds { get; init; }

    /// <summary>Why it matters in the garden, as Markdown; may be empty.</summary>
    public string Matters { get; init; } = "";

    /// <summary>A whole site in which it fires exactly once; may be empty.</summary>
    public string Fires { get; init; } = "";

    /// <summary>The same site fixed: it fires no more; may be empty.</summary>
    public string Fixed { get; init; } = "";

    /// <summary>What its fix changes, and whether <c>--fix</c> applies it unasked; empty for a rule without one.</summary>
    public string FixSafety { get; init; } = "";

    /// <summary>What it does not see, and what it assumes; may be empty.</summary>
    public string KnownLimits { get; init; } = "";

    /// <summary>Standards, handbooks, or "common practice"; may be empty.</summary>
    public string Sources { get; init; } = "";
}
