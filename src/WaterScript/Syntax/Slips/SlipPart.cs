namespace WaterScript.Syntax.Slips;

/// <summary>What is written in place of some tokens of a statement.</summary>
/// <param name="First">The first of them.</param>
/// <param name="Count">How many; 0 for something that is put before the first, or at the end.</param>
/// <param name="Text">What stands there then; empty for nothing.</param>
internal readonly record struct SlipPart(int First, int Count, string Text);
