using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Editing.Changes;

/// <summary>What can be done at a place.</summary>
/// <param name="Kind">What kind of change it is, in the words of editors: <c>quickfix</c>, <c>refactor.extract</c>.</param>
/// <param name="Title">What it does, as an imperative with a capital.</param>
/// <param name="Edits">The changes, in one file or several.</param>
internal sealed record EditorAction(string Kind, string Title, ImmutableArray<TextEdit> Edits)
{
    /// <summary>Corrects what is found.</summary>
    public const string QuickFix = "quickfix";

    /// <summary>Makes a part of its own of something.</summary>
    public const string Extract = "refactor.extract";

    /// <summary>Puts a part in the place that asks for it.</summary>
    public const string Inline = "refactor.inline";

    /// <summary>Says the same in another way.</summary>
    public const string Rewrite = "refactor.rewrite";

    /// <summary>Corrects all that can be corrected without a change of the watering.</summary>
    public const string FixAll = "source.fixAll.waterscript";

    /// <summary>Whether it is the one that most people will choose.</summary>
    public bool IsPreferred { get; init; }

    /// <summary>What it corrects.</summary>
    public ImmutableArray<EditorFinding> Corrects { get; init; } = [];
}
