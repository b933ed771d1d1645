namespace WaterScript.Cli;

/// <summary>Whoever read standard output has seen enough, as <c>head -1</c> has.</summary>
internal sealed class ReaderGoneException : IOException;
