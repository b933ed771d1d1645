namespace WaterScript.Mutation.Rewriting;

/// <summary>One change of the library.</summary>
/// <param name="Number">Counts all mutants of a part; it stays the same when others turn out not to compile.</param>
/// <param name="Path">The file, from the root of the repository.</param>
/// <param name="Line">Where it stands, from 1.</param>
/// <param name="Change">What becomes of what.</param>
/// <param name="Text">The line as it is.</param>
internal sealed record Mutation(int Number, string Path, int Line, string Change, string Text)
{
    public override string ToString() => FormattableString.Invariant($"{Path}:{Line}: {Change} in `{Text}`");
}
