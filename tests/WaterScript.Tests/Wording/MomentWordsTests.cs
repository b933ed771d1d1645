using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Wording;

/// <summary>When something happens, in a sentence.</summary>
public class MomentWordsTests
{
    /// <summary>Against the patterns of Noda Time, in its invariant culture, which is English.</summary>
    [Fact]
    public void Dates_and_times_are_written_as_the_library_writes_them()
    {
        static string By(string pattern, LocalDate date) => LocalDatePattern.CreateWithInvariantCulture(pattern).Format(date);
        for (var date = new LocalDate(2027, 12, 1); date.Year < 2029; date = date.PlusDays(1))
        {
            Assert.Equal(By("ddd d MMM uuuu", date), MomentWords.Date(date));
            Assert.Equal(By("d MMM uuuu", date), MomentWords.PlainDate(date));
            Assert.Equal(By("ddd d MMM", date), MomentWords.DayOfYear(date));
            Assert.Equal(By("d MMM", date), MomentWords.PlainDay(date));
            Assert.Equal(By("ddd d", date), MomentWords.DayOfMonth(date));
        }

        for (var time = LocalTime.Midnight; time < LocalTime.MaxValue.PlusMinutes(-7); time = time.PlusSeconds(397))
            Assert.Equal(LocalTimePattern.CreateWithInvariantCulture(time.Second == 0 ? "HH:mm" : "HH:mm:ss").Format(time), MomentWords.Time(time));
        Assert.Equal(By("ddd d MMM uuuu", new LocalDate(987, 1, 1)), MomentWords.Date(new LocalDate(987, 1, 1)));
    }

    [Theory]
    [InlineData("2026-07-04T20:15", "2026-07-04T20:15", 1, 1, "Once, Sat 4 Jul 2026 20:15.")]
    [InlineData("2026-07-04T20:15:30", "2026-07-04T20:15:30", 1, 1, "Once, Sat 4 Jul 2026 20:15:30.")]
    [InlineData("2026-07-04T20:15", "2026-07-04T21:15", 2, 1, "Twice: Sat 4 Jul 2026 20:15 and 21:15.")]
    [InlineData("2026-07-04T20:15", "2026-07-07T20:40", 2, 2, "Twice: Sat 4 Jul 2026 20:15 and Tue 7 Jul 20:40.")]
    [InlineData("2026-12-31T20:15", "2027-01-01T20:15", 2, 2, "Twice: Thu 31 Dec 2026 20:15 and Fri 1 Jan 2027 20:15.")]
    [InlineData("2026-03-16T07:00", "2028-02-28T07:00", 69, 69, "First Mon 16 Mar 2026 07:00; 69 times; last Mon 28 Feb 2028 07:00.")]
    [InlineData("2026-03-16T07:00", "2026-09-28T07:00", 9, 9, "First Mon 16 Mar 2026 07:00; 9 times; last Mon 28 Sep 07:00.")]
    [InlineData("2026-03-16T07:00", "2026-09-28T09:00", 27, 9, "First Mon 16 Mar 2026 07:00; 27 times on 9 days; last Mon 28 Sep 09:00.")]
    [InlineData("2026-03-16T07:00", "2026-03-16T09:00", 3, 1, "First Mon 16 Mar 2026 07:00; 3 times on 1 day; last 09:00.")]
    [InlineData("2026-03-16T07:00", "2026-03-20T07:00", 5, 5, "First Mon 16 Mar 2026 07:00; 5 times, daily, to Fri 20 Mar.")]
    [InlineData("2026-12-30T07:00", "2027-01-01T07:00", 3, 3, "First Wed 30 Dec 2026 07:00; 3 times, daily, to Fri 1 Jan 2027.")]
    [InlineData("2026-03-16T07:00", "2026-03-20T09:00", 10, 5, "First Mon 16 Mar 2026 07:00; 10 times on 5 days; last Fri 20 Mar 09:00.")]
    [InlineData("2026-03-16T07:00", "2026-03-17T07:00", 2, 2, "Twice: Mon 16 Mar 2026 07:00 and Tue 17 Mar 07:00.")]
    public void Moments_are_said_as_they_come(string first, string last, long times, long days, string sentence) =>
        Assert.Equal(sentence, MomentWords.When(Of(first, last, times, days)));

    [Theory]
    [InlineData("2026-03-29", "2026-03-29", 1, "Once, Sun 29 Mar 2026.")]
    [InlineData("2026-03-29", "2027-03-28", 2, "Twice: Sun 29 Mar 2026 and Sun 28 Mar 2027.")]
    [InlineData("2026-03-02", "2026-03-30", 5, "First Mon 2 Mar 2026; 5 times; last Mon 30 Mar.")]
    [InlineData("2026-03-02", "2026-03-06", 5, "First Mon 2 Mar 2026; 5 times, daily, to Fri 6 Mar.")]
    public void Dates_have_no_time(string first, string last, long days, string sentence) =>
        Assert.Equal(sentence, MomentWords.When(Of(first + "T00:00", last + "T00:00", days, days) with { IsWholeDays = true }));

    [Fact]
    public void Where_nothing_shows_that_it_ends_it_is_still_so()
    {
        Assert.Equal("First Mon 16 Mar 2026 07:00; 69 times; still so on Mon 28 Feb 2028 07:00.",
            MomentWords.When(Of("2026-03-16T07:00", "2028-02-28T07:00", 69, 69) with { IsStill = true }));
        Assert.Equal("First Mon 16 Mar 2026; 69 times; still so on Mon 28 Feb 2028.",
            MomentWords.When(Of("2026-03-16T07:00", "2028-02-28T07:00", 69, 69) with { IsStill = true, IsWholeDays = true }));
    }

    [Fact]
    public void A_range_names_what_it_shares_once()
    {
        Assert.Equal("First Sat 4 Jul 2026 20:15; last Tue 7 Jul 20:40.", MomentWords.Range(new(2026, 7, 4, 20, 15), new(2026, 7, 7, 20, 40)));
        Assert.Equal("First Sat 4 Jul 2026 20:15; last 20:40.", MomentWords.Range(new(2026, 7, 4, 20, 15), new(2026, 7, 4, 20, 40)));
        Assert.Equal("Once, Sat 4 Jul 2026 20:15.", MomentWords.Range(new(2026, 7, 4, 20, 15), new(2026, 7, 4, 20, 15)));
    }

    private static Occurrences Of(string first, string last, long times, long days) => new(Moment(first), Moment(last), times, days);

    private static LocalDateTime Moment(string text) =>
        LocalDateTime.FromDateTime(DateTime.Parse(text, System.Globalization.CultureInfo.InvariantCulture));
}
