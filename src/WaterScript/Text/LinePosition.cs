namespace WaterScript.Text;

/// <summary>A place as people and editors count it.</summary>
/// <param name="Line">Line number, from 1.</param>
/// <param name="Column">UTF-16 code units before the place on its line, plus 1.</param>
internal readonly record struct LinePosition(int Line, int Column);
