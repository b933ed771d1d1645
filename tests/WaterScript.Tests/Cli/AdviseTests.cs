using System.Text.Json;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class AdviseTests : Workshop
{
    private const string Site = """
        site garden { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W 310 m }
        climate { jul 16.1 C to 27.9 C, rain 4 mm }
        zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
        schedule s { every day; from 1 jul to 31 jul; start at 05:00; steps { water lawn for 20 min } }

        """;

    [Fact]
    public void A_table_for_people_goes_to_standard_output()
    {
        Write("site.water", Site);
        var result = Run("advise", "site.water");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        Assert.StartsWith("lawn: turf-cool on loam, 15.0 mm/h, all of it counted", result.Output, StringComparison.Ordinal);
        Assert.EndsWith("look at the ground and the plants before you change anything.\n", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_goes_to_a_file()
    {
        Write("site.water", Site);
        Assert.Equal(0, Run("advise", "site.water", "--report", "json", "-o", "advice.json").ExitCode);
        using var json = JsonDocument.Parse(Read("advice.json"));
        Assert.Equal("hargreaves", json.RootElement.GetProperty("climate")[0].GetProperty("method").GetString());
    }

    [Fact]
    public void A_file_with_a_mistake_is_refused()
    {
        Write("site.water", Site.Replace("soil loam", "soil loamm", StringComparison.Ordinal));
        var result = Run("advise", "site.water");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("did you mean `loam`?", result.Error, StringComparison.Ordinal);
        Assert.EndsWith("Nothing was calculated.\n", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_zone_it_says_so()
    {
        Write("site.water", "site bare { timezone UTC; effective 2026-03-01 }\n");
        Assert.Equal("bare has no zone in use, so there is nothing to advise.\n", Run("advise", "site.water").Output);
    }

    [Fact]
    public void Too_much_work_says_how_far_it_came_and_what_makes_it()
    {
        Write("site.water", """
            site mist { timezone Europe/Lisbon; effective 2026-03-01 }
            zone fern { output 1; flow 6 L/min }
            schedule fog { every day; start at 00:00; repeat every 5 s until 23:59; steps { water fern for 1 s } }

            """);
        var result = Run("advise", "site.water");
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        Assert.Matches(
            @"more work than an answer may take \[over-limit\]: the work came to [A-Z][a-z]+ \d+ [A-Z][a-z]+ 2026, "
                + @"and schedule fog makes 100 % of the work \(site\.water:3\);",
            result.Error);
    }

    [Fact]
    public void Without_a_climate_it_says_so()
    {
        Write("site.water", Good);
        Assert.Equal("No advice for lawn, beds (no climate given).\n", Run("advise", "site.water").Output);
    }
}
