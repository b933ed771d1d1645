namespace WaterScript.Timetables.Switchings;

/// <summary>A controller opens or closes one output.</summary>
/// <param name="Milliseconds">When it does so, in Unix milliseconds; later than the opening says where stagger makes it wait.</param>
/// <param name="Controller">Index among the site's controllers.</param>
/// <param name="Output">Number of the output, from 1.</param>
/// <param name="IsOpen">Whether it opens; otherwise it closes.</param>
/// <param name="Opening">Number of the opening.</param>
/// <param name="Zone">Index among the site's zones; -1 for a device.</param>
/// <param name="Device">Index among the site's devices; -1 for a zone.</param>
internal readonly record struct Switching(long Milliseconds, int Controller, int Output, bool IsOpen, long Opening, int Zone, int Device)
{
    internal const int MillisecondsInSecond = 1_000;

    /// <summary>When it does so, in Unix seconds, exact: three decimals, written down rather than divided.</summary>
    public decimal Seconds
    {
        get
        {
            var size = (ulong)Math.Abs(Milliseconds);
            return new decimal((int)size, (int)(size >> 32), 0, Milliseconds < 0, 3);
        }
    }

    /// <summary>The whole second of it, in Unix seconds.</summary>
    public long Second => SecondOf(Milliseconds);

    /// <summary>The whole second of an instant in Unix milliseconds.</summary>
    public static long SecondOf(long milliseconds) => milliseconds >= 0 ? milliseconds / MillisecondsInSecond : ~(~milliseconds / MillisecondsInSecond);

    /// <summary>Milliseconds after that second, 0 to 999.</summary>
    public int AfterMilliseconds => (int)(Milliseconds - (Second * MillisecondsInSecond));
}
