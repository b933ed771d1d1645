using WaterScript.Syntax.Tokens;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>Dates as they are written in the countries of the users: day first between points everywhere, either first between strokes.</summary>
public class ForeignDateTests
{
    [Theory]
    [InlineData("31.05.2026", "2026-05-31")]
    [InlineData("1.5.2026", "2026-05-01")]
    [InlineData("31-05-2026", "2026-05-31")]
    [InlineData("5/31/2026", "2026-05-31")]
    [InlineData("1/5/2026", "2026-05-01 or 2026-01-05, whichever is meant")]
    [InlineData("5/5/2026", "2026-05-05")]
    [InlineData("2026/05/31", "2026-05-31")]
    [InlineData("2026-5-1", "2026-05-01")]
    [InlineData("30.09.", "30 sep")]
    [InlineData("9/30", "30 sep")]
    [InlineData("29.02.2028", "2028-02-29")]
    [InlineData("29.02.2026", null)]
    [InlineData("32/13/2026", null)]
    [InlineData("1/2", null)]
    [InlineData("10-20", null)]
    [InlineData("06:00-09:00", null)]
    [InlineData("1.2.3.4", null)]
    public void ADateIsAnsweredAsTheLanguageWritesIt(string written, string? meant) => Assert.Equal(meant, ForeignDate.Meant(written));
}
