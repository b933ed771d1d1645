namespace WaterScript.Calendars;

/// <summary>
/// Where the sun stands, seen from a place: the low-precision Sun of Jean Meeus, Astronomical Algorithms, 2nd ed. 1998,
/// chapter 25 (0.01°), with chapters 12 (sidereal time), 13 (altitude) and 22 (obliquity); coefficients from memory.
/// </summary>
/// <remarks>
/// Unix seconds are taken for dynamical time: their difference, some 70 s now, moves the sun by 3 arc seconds along its
/// path, which is 0.2 s of rising time at middle latitudes.
/// </remarks>
internal readonly struct SunPosition
{
    private const double RadiansInDegree = Math.PI / 180;
    private const double SecondsInDay = 86_400;
    private const double DaysInCentury = 36_525;

    /// <summary>Days from 1970-01-01 00:00 to the epoch J2000.0, 2000-01-01 12:00.</summary>
    private const double UnixToJ2000 = 10_957.5;

    private SunPosition(double hourAngle, double sineOfAltitude)
    {
        HourAngle = hourAngle;
        SineOfAltitude = sineOfAltitude;
    }

    /// <summary>Degrees since the sun stood in the meridian, -180 to 180; negative before it.</summary>
    public double HourAngle { get; }

    /// <summary>Sine of the altitude of the sun's centre over the horizon, without refraction.</summary>
    public double SineOfAltitude { get; }

    /// <summary>The sun at an instant.</summary>
    /// <param name="instant">In Unix seconds.</param>
    /// <param name="longitude">Degrees, east positive.</param>
    /// <param name="sineOfLatitude">Of the latitude, north positive.</param>
    /// <param name="cosineOfLatitude">Of the latitude.</param>
    public static SunPosition At(double instant, double longitude, double sineOfLatitude, double cosineOfLatitude)
    {
        var days = (instant / SecondsInDay) - UnixToJ2000;
        var t = days / DaysInCentury;

        var meanLongitude = 280.46646 + (t * (36_000.76983 + (t * 0.0003032)));
        var meanAnomaly = RadiansInDegree * (357.52911 + (t * (35_999.05029 - (t * 0.0001537))));
        var centre = ((1.914602 - (t * (0.004817 + (t * 0.000014)))) * Math.Sin(meanAnomaly))
            + ((0.019993 - (0.000101 * t)) * Math.Sin(2 * meanAnomaly))
            + (0.000289 * Math.Sin(3 * meanAnomaly));

        var (sineOfNode, cosineOfNode) = Math.SinCos(RadiansInDegree * (125.04 - (1_934.136 * t)));
        var nutation = -0.00478 * sineOfNode;
        var longitudeOfSun = RadiansInDegree * (meanLongitude + centre - 0.00569 + nutation);
        var obliquity = RadiansInDegree * (23.4392911 - (0.0130042 * t) + (0.00256 * cosineOfNode));

        var (sineOfLongitude, cosineOfLongitude) = Math.SinCos(longitudeOfSun);
        var (sineOfObliquity, cosineOfObliquity) = Math.SinCos(obliquity);
        var rightAscension = Math.Atan2(cosineOfObliquity * sineOfLongitude, cosineOfLongitude) / RadiansInDegree;
        var sineOfDeclination = sineOfObliquity * sineOfLongitude;
        var cosineOfDeclination = Math.Sqrt(1 - (sineOfDeclination * sineOfDeclination));

        var siderealTime = 280.46061837 + (360.98564736629 * days) + (0.000387933 * t * t) + (nutation * cosineOfObliquity);
        var hourAngle = Math.IEEERemainder(siderealTime + longitude - rightAscension, 360);
        var sineOfAltitude = (sineOfLatitude * sineOfDeclination)
            + (cosineOfLatitude * cosineOfDeclination * Math.Cos(RadiansInDegree * hourAngle));
        return new(hourAngle, sineOfAltitude);
    }
}
