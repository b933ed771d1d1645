using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Syntax.Formatting;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Syntax.Formatting;

/// <summary>What holds of every layout, over all examples, all code that the pages show, and sites nobody thought of.</summary>
public sealed class FormatterPropertyTests
{
    private static readonly int RandomSites = Samples.Of(60);
    private const int LayoutsEach = 2;

    /// <summary>All texts without errors in which no form is unusual.</summary>
    private static readonly string[] Texts =
    [
        .. Repository.ExampleFiles.Select(Repository.Read)
            .Concat(FencedBlock.InPages("water").GroupBy(block => block.Page).SelectMany(page => Snippet.Of([.. page])).Select(snippet => snippet.Text))
            .Concat(Enumerable.Range(0, RandomSites).Select(number => RandomSource.Of(number).Text))
            .Where(IsSound),
    ];

    public static TheoryData<string> Examples => [.. Repository.ExampleFiles];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Every_example_is_in_the_layout(string path) => Assert.Equal(Repository.Read(path), Format(Repository.Read(path)));

    [Fact]
    public void A_layout_laid_out_again_is_itself()
    {
        foreach (var text in Texts)
        {
            var once = Format(text)!;
            Assert.Equal(once, Format(once));
        }
    }

    [Fact]
    public void Words_and_comments_stay_as_they_are()
    {
        foreach (var text in Texts)
        {
            Assert.Equal(RawTokens.Words(text), RawTokens.Words(Format(text)!));
            Assert.Equal(RawTokens.Comments(text), RawTokens.Comments(Format(text)!));
        }
    }

    [Fact]
    public void No_line_ends_in_blanks_and_no_two_are_blank()
    {
        foreach (var text in Texts)
        {
            var formatted = Format(text)!;
            Assert.DoesNotContain(" \n", formatted, StringComparison.Ordinal);
            Assert.DoesNotContain("\n\n\n", formatted, StringComparison.Ordinal);
            Assert.DoesNotContain("{\n\n", formatted, StringComparison.Ordinal);
            Assert.EndsWith("\n", formatted, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Random_sites_have_the_same_timetable()
    {
        for (var number = 0; number < RandomSites; number++)
        {
            var source = RandomSource.Of(number);
            if (RandomRunsTests.Read(source.Text, out _) is null) continue;
            Assert.Equal(Compiled(source.Text, source.From), Compiled(Format(source.Text)!, source.From));
        }
    }

    [Fact]
    public void Every_layout_of_a_text_comes_out_as_one()
    {
        foreach (var (text, number) in Texts.Select((text, number) => (text, number)))
        {
            var formatted = Format(text);
            for (var layout = 0; layout < LayoutsEach; layout++)
            {
                var other = Relayout.Of(text, (number * LayoutsEach) + layout);
                Assert.NotEqual(text, other);
                Assert.True(formatted == Format(other), $"{other}\n---- comes out as\n{Format(other)}\n---- and not as\n{formatted}");
            }
        }
    }

    [Fact]
    public void Comments_may_stand_wherever_a_line_ends()
    {
        foreach (var (text, number) in Texts.Select((text, number) => (text, number)))
        {
            var commented = Relayout.WithComments(text, number);
            var once = Format(commented)!;
            Assert.Equal(once, Format(once));
            Assert.Equal(RawTokens.Comments(commented), RawTokens.Comments(once));
            Assert.Equal(RawTokens.Words(text), RawTokens.Words(once));
        }
    }

    private static bool IsSound(string text)
    {
        var findings = new FindingList();
        WaterScript.Syntax.Parser.Parse(SourceText.From("test.water", text), findings);
        return findings.Count == 0;
    }

    private static string? Format(string text) => Formatter.Format(SourceText.From("test.water", text), [])?.Text;

    /// <summary>The hash of a site and its runs of some days.</summary>
    private static string Compiled(string text, LocalDate from)
    {
        var site = SiteReader.Read(SourceText.From("test.water", text), "test.water", new MemoryFiles(new Dictionary<string, string>()),
            DateTimeZoneProviders.Tzdb).Site!;
        using var stream = new MemoryStream();
        TimetableOutput.Write(Timetable.Of(site, Horizon.DaysFrom(from, 25)), OutputFormat.Csv, new OutputOptions(), stream);
        return SiteHash.Of(site) + "\n" + System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }
}
