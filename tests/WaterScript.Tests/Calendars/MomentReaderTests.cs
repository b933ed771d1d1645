using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class MomentReaderTests
{
    private static readonly Location Nowhere = new(SourceText.From("a.water", ""), new TextSpan(0, 0));
    private static readonly ZoneClock Lisbon = new(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]);
    private static readonly SunTimes Sun = SunTimes.Of(new Position(39.6, -8.1, null), Lisbon);
    private static readonly int Midsummer = CivilDate.DayNumberOf(2026, 6, 21);

    [Theory]
    [InlineData(2026, 6, 21, MomentNote.None)]
    [InlineData(2026, 3, 29, MomentNote.Skipped)]
    [InlineData(2026, 10, 25, MomentNote.Doubled)]
    public void AClockMomentSaysWhatTheClockDoesWithIt(int year, int month, int day, object note)
    {
        var reading = new MomentReader(Lisbon, null).Read(new ClockMoment(Nowhere, 5_400), CivilDate.DayNumberOf(year, month, day));
        Assert.Equal(note, reading.Note);
        Assert.True(reading.Exists);
        Assert.Equal(reading.Instant, reading.InstantOrNull);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1_800)]
    [InlineData(-5_415)]
    public void ASunMomentIsAnEventAndElapsedTime(int offset)
    {
        var moment = new SunMoment(Nowhere, SunEvent.Sunset, Duration.FromSeconds(offset));
        var reading = new MomentReader(Lisbon, Sun).Read(moment, Midsummer);
        Assert.Equal(new MomentReading(Sun.EventOn(Midsummer, SunEvent.Sunset)!.Value + offset, MomentNote.None), reading);
    }

    [Fact]
    public void ADateWithoutTheEventHasNoMoment()
    {
        var north = SunTimes.Of(new Position(69.7, 18.9, null), Lisbon);
        var reading = new MomentReader(Lisbon, north).Read(new SunMoment(Nowhere, SunEvent.Sunrise, Duration.FromHours(1)), Midsummer);
        Assert.Equal(MomentReading.NoSunEvent, reading);
        Assert.False(reading.Exists);
        Assert.Null(reading.InstantOrNull);
    }

    [Fact]
    public void ASunMomentNeedsALocation() => Assert.Throws<InvalidOperationException>(
        () => new MomentReader(Lisbon, null).Read(new SunMoment(Nowhere, SunEvent.Sunrise, Duration.Zero), Midsummer));
}
