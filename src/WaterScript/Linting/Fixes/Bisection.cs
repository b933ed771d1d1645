namespace WaterScript.Linting.Fixes;

/// <summary>Finds the first number that will do, of those from which on every greater one does too, with few tries.</summary>
internal static class Bisection
{
    /// <summary>The first that does; null where one could not be tried.</summary>
    /// <param name="least">The least that may be it.</param>
    /// <param name="greatest">One that is known to do.</param>
    /// <param name="does">Tries one; null where it cannot be tried.</param>
    public static long? First(long least, long greatest, Func<long, bool?> does)
    {
        while (least < greatest)
        {
            var middle = (least + greatest) / 2;
            if (does(middle) is not { } isEnough) return null;
            if (isEnough) greatest = middle;
            else least = middle + 1;
        }

        return greatest;
    }
}
