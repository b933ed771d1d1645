namespace WaterScript.Text.Lines;

/// <summary>A cell of a table.</summary>
/// <param name="Words">What it says.</param>
/// <param name="IsStrong">Whether it draws the eye.</param>
internal sealed record MarkdownCell(string Words, bool IsStrong = false);
