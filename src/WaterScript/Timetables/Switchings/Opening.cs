namespace WaterScript.Timetables.Switchings;

/// <summary>An output is on: the valve of a zone, or a pump, master or injector that runs because of zones.</summary>
/// <param name="Number">Place in the timetable's openings, from 1.</param>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="To">The second after the last, in Unix seconds; above <paramref name="From"/>.</param>
/// <param name="Controller">Index among the site's controllers.</param>
/// <param name="Output">Number of the output; 0 where none is wired.</param>
/// <param name="Zone">Index among the site's zones; -1 for a device.</param>
/// <param name="Device">Index among the site's devices; -1 for a zone.</param>
/// <param name="Runs">Numbers of the runs that it comes from, in order; at least one.</param>
internal readonly record struct Opening(long Number, long From, long To, int Controller, int Output, int Zone, int Device, RunNumbers Runs)
{
    /// <summary>How long it lasts, in seconds.</summary>
    public long Seconds => To - From;
}
