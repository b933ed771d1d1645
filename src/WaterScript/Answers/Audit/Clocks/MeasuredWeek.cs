namespace WaterScript.Answers.Audit.Clocks;

/// <summary>How far the clock of a log was ahead in a week.</summary>
/// <param name="From">When it begins by that clock, in Unix seconds.</param>
/// <param name="Offset">The offset of the site's clock then, in seconds ahead of UTC.</param>
/// <param name="Ahead">Seconds; below 0 where it was behind.</param>
/// <param name="Openings">How many openings say so.</param>
internal sealed record MeasuredWeek(decimal From, int Offset, decimal Ahead, int Openings);
