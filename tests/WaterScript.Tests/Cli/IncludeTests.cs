using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class IncludeTests : Workshop
{
    private const string Zones = "zone more { output 3 }\n";

    [Fact]
    public void The_root_folder_is_the_nearest_with_a_repository()
    {
        Directory.CreateDirectory(PathOf(".git"));
        Write("shared/zones.water", Zones);
        Write("sites/a/site.water", Good + "include \"../../shared/zones.water\"\n");
        Assert.Contains(" in 2 files", Run("check", "sites/a/site.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_repository_it_is_the_files_own_folder()
    {
        Write("shared/zones.water", Zones);
        Write("site/site.water", Good + "include \"../shared/zones.water\"\n");
        var result = Run("check", "site/site.water");
        Assert.Contains("[include-outside]", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
        Assert.Equal(0, Run("check", "--root", ".", "site/site.water").ExitCode);
    }

    [Fact]
    public void A_link_does_not_lead_out_of_it()
    {
        Write("outside/zones.water", Zones);
        Write("site/site.water", Good + "include \"zones.water\"\n");
        File.CreateSymbolicLink(PathOf("site/zones.water"), PathOf("outside/zones.water"));
        var result = Run("check", "site/site.water");
        Assert.Contains("[include-outside]", result.Output, StringComparison.Ordinal);
        Assert.Contains("  site/site.water:5:9\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void A_folder_that_is_a_link_does_not_lead_out_of_it_either()
    {
        Write("outside/zones.water", Zones);
        Write("site/site.water", Good + "include \"parts/zones.water\"\n");
        Directory.CreateSymbolicLink(PathOf("site/parts"), PathOf("outside"));
        Assert.Contains("[include-outside]", Run("check", "site/site.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_that_stays_inside_is_followed()
    {
        Write("real/zones.water", Zones);
        Write("site.water", Good + "include \"zones.water\"\n");
        File.CreateSymbolicLink(PathOf("zones.water"), "real/zones.water");
        Assert.Contains(" in 2 files", Run("check", "site.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Links_in_a_circle_end()
    {
        Write("site.water", Good + "include \"a.water\"\n");
        File.CreateSymbolicLink(PathOf("a.water"), "b.water");
        File.CreateSymbolicLink(PathOf("b.water"), "a.water");
        Assert.Contains(Run("check", "site.water").ExitCode, new[] { 1, 2 });
    }

    [Fact]
    public void A_missing_file_is_a_finding_at_its_include()
    {
        Write("site.water", Good + "include \"zones.water\"\n");
        var result = Run("check", "site.water");
        Assert.Contains("[include-missing]\n  site.water:5:9\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void A_root_file_outside_the_root_folder_is_refused()
    {
        Write("site.water", Good);
        Directory.CreateDirectory(PathOf("other"));
        var result = Run("check", "--root", "other", "site.water");
        Assert.Contains("lies outside the root folder", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    [Fact]
    public void A_mistake_in_an_included_file_is_shown_there()
    {
        Write("parts/zones.water", "zone more { outptu 3 }\n");
        Write("site.water", Good + "include \"parts/zones.water\"\n");
        Assert.Contains("  parts/zones.water:1:13\n", Run("check", "site.water").Output, StringComparison.Ordinal);
    }
}
