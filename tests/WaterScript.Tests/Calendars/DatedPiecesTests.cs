using NodaTime;
using WaterScript.Calendars;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>
/// Stretches cut at local midnights, by brute force: minute by minute NodaTime says which date it is, and what the clock is ahead. Clocks are put back over
/// midnight in Havana and São Paulo, forward over it in Beirut, and skip 30 December 2011 in Apia.
/// </summary>
public sealed class DatedPiecesTests
{
    private const int Minute = 60, Hour = 3_600, Day = 86_400;

    [Theory]
    [InlineData("America/Havana", 2026, 10, 30)]
    [InlineData("America/Sao_Paulo", 2018, 2, 15)]
    [InlineData("Asia/Beirut", 2026, 3, 26)]
    [InlineData("Pacific/Apia", 2011, 12, 28)]
    [InlineData("Europe/Lisbon", 2026, 10, 23)]
    [InlineData("Asia/Kolkata", 2026, 6, 1)]
    public void Each_piece_lies_on_the_date_that_the_clock_shows(string id, int year, int month, int day)
    {
        var zone = DateTimeZoneProviders.Tzdb[id];
        var from = Instant.FromUtc(year, month, day, 3, 7).ToUnixTimeSeconds();
        var until = from + (5 * Day) + (11 * Hour);
        var pieces = new DatedPieces(new ZoneClock(zone)).Of(from, until).ToList();

        var cuts = new List<long> { from };
        for (var instant = from + Minute; instant < until; instant += Minute)
            if (Shown(zone, instant) != Shown(zone, instant - Minute)) cuts.Add(instant);
        Assert.Equal(cuts, pieces.Select(piece => piece.From));
        Assert.Equal((from, until), (pieces[0].From, pieces[^1].Until));
        Assert.All(pieces.Zip(pieces.Skip(1)), pair => Assert.Equal(pair.First.Until, pair.Second.From));
        Assert.All(pieces, piece => Assert.Equal((piece.Day, piece.Day), (Shown(zone, piece.From).Day, Shown(zone, piece.Until - 1).Day)));
    }

    /// <summary>Whoever asks again, and for what was before, gets the same; an empty stretch has no piece.</summary>
    [Fact]
    public void What_was_asked_before_changes_nothing()
    {
        var zone = DateTimeZoneProviders.Tzdb["America/Havana"];
        var from = Instant.FromUtc(2026, 10, 30, 3, 7).ToUnixTimeSeconds();
        var pieces = new DatedPieces(new ZoneClock(zone));
        var late = pieces.Of(from + (30L * Day), from + (33L * Day)).ToList();
        Assert.Equal(new DatedPieces(new ZoneClock(zone)).Of(from, from + (5L * Day)), pieces.Of(from, from + (5L * Day)));
        Assert.Equal(late, pieces.Of(from + (30L * Day), from + (33L * Day)));
        Assert.Empty(pieces.Of(from, from));
    }

    private static (int Day, int Ahead) Shown(DateTimeZone zone, long instant)
    {
        var shown = Instant.FromUnixTimeSeconds(instant).InZone(zone);
        return (CivilDate.DayNumberOf(shown.Date), shown.Offset.Seconds);
    }
}
