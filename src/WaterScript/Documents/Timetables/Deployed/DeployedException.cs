namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>A deployed timetable that cannot be used: where, why, and what to do about it.</summary>
/// <param name="line">The line, from 1.</param>
/// <param name="column">The column, from 1.</param>
/// <param name="what">What is wrong, without a full stop.</param>
/// <param name="help">What to do about it, as an imperative without a full stop.</param>
internal sealed class DeployedException(int line, int column, string what, string help) : Exception(what)
{
    /// <summary>The line, from 1.</summary>
    public int Line => line;

    /// <summary>The column, from 1.</summary>
    public int Column => column;

    /// <summary>What to do about it.</summary>
    public string Help => help;
}
