using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>Files in which a merge left both versions: one finding, and the rest is checked with the first.</summary>
public class MergeConflictTests
{
    private const string Head = "site garden { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1 }\nschedule s {\n  every day\n";
    private const string Tail = "  steps { water a for 5 min }\n}\n";

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void Three_markers_are_one_finding_and_the_first_side_is_read(string lineEnd)
    {
        var reading = Read("<<<<<<< HEAD\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>> summer\n", lineEnd);
        var finding = Assert.Single(reading.Findings);
        Assert.Equal(("syntax", Severity.Error, "unfinished merge, lines 5 to 9"), (finding.Rule.Slug, finding.Severity, finding.Heading));
        Assert.Equal(("5:1 <<<<<<< HEAD", "HEAD: `start at 20:15`"), Shown(finding.Primary));
        Assert.Equal([("9:1 >>>>>>> summer", "summer: `start at 21:00`")], finding.Others.Select(Shown));
        Assert.Equal("Keep one side, and delete the three marker lines.", finding.Help);
        Assert.Null(finding.Fix);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void With_the_lines_that_both_came_from_there_are_four_markers(string lineEnd)
    {
        var finding = Assert.Single(
            Read("<<<<<<< HEAD\n  start at 20:15\n||||||| 1a2b3c4\n  start at 19:00\n=======\n  start at 21:00\n>>>>>>> summer\n", lineEnd).Findings);
        Assert.Equal("unfinished merge, lines 5 to 11", finding.Heading);
        Assert.Equal(("5:1 <<<<<<< HEAD", "HEAD: `start at 20:15`"), Shown(finding.Primary));
        Assert.Equal([("11:1 >>>>>>> summer", "summer: `start at 21:00`")], finding.Others.Select(Shown));
        Assert.Equal("Keep one side, and delete the four marker lines.", finding.Help);
    }

    [Theory]
    [InlineData("<<<<<<< HEAD\n=======\n  start at 21:00\n>>>>>>> summer\n", "HEAD: nothing", "summer: `start at 21:00`")]
    [InlineData("<<<<<<< HEAD\n  start at 20:15\n=======\n>>>>>>> summer\n", "HEAD: `start at 20:15`", "summer: nothing")]
    [InlineData("<<<<<<< HEAD\n  start at 20:15\n  # late\n=======\n  # early\n  # or not\n  start at 21:00\n>>>>>>> summer\n",
        "HEAD: 2 lines", "summer: 3 lines")]
    [InlineData("<<<<<<<\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>>\n", "`start at 20:15`", "`start at 21:00`")]
    [InlineData("<<<<<<< HEAD\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>> a-branch-with-a-name-of-its-own-for-summer\n",
        "HEAD: `start at 20:15`", "1 line")]
    public void A_side_is_named_by_its_line_or_by_how_many_it_has(string conflict, string first, string second)
    {
        var finding = Assert.Single(Read(conflict).Findings, finding => finding.Heading.StartsWith("unfinished merge", StringComparison.Ordinal));
        Assert.Equal((first, second), (finding.Primary.Text, Assert.Single(finding.Others).Text));
    }

    [Fact]
    public void Two_conflicts_are_two_findings()
    {
        const string One = "<<<<<<< HEAD\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>> summer\n";
        var reading = Read(One + "  # between\n" + One.Replace("start", "finish", StringComparison.Ordinal).Replace("at ", "by ", StringComparison.Ordinal));
        Assert.Equal(["unfinished merge, lines 5 to 9", "unfinished merge, lines 11 to 15"],
            reading.Findings.Where(finding => finding.Rule.Slug == "syntax").Select(finding => finding.Heading));
    }

    /// <summary>What is wrong in the side that is read, and after it, is found; what is wrong in the other is not.</summary>
    [Fact]
    public void The_rest_of_the_file_is_checked_with_the_first_side()
    {
        var first = Read("<<<<<<< HEAD\n  strt at 20:15\n=======\n  start at 21:00\n>>>>>>> summer\n  frm 1 may\n").Findings;
        Assert.Equal(["5 unfinished merge, lines 5 to 9", "6 \"strt\" is not a statement here", "10 \"frm\" is not a statement here"], first.Select(Line));
        var second = Read("<<<<<<< HEAD\n  start at 20:15\n=======\n  strt at 21:00\n>>>>>>> summer\n").Findings;
        Assert.Equal(["5 unfinished merge, lines 5 to 9"], second.Select(Line));
    }

    [Fact]
    public void At_the_end_of_a_file_the_last_marker_needs_no_line_end()
    {
        var reading = Expect.Read(Head + "  start at 06:00\n" + Tail + "<<<<<<< HEAD\n=======\nzone b { output 1 }\n>>>>>>> summer");
        Assert.Equal(["8 unfinished merge, lines 8 to 11"], reading.Findings.Select(Line));
    }

    /// <summary>A marker is seven of its letter at the start of a line, alone or before a space.</summary>
    [Theory]
    [InlineData("# <<<<<<< HEAD\n  start at 20:15\n# =======\n# >>>>>>> summer\n")]
    [InlineData("  start at 20:15\n  # =======\n")]
    public void Markers_in_comments_are_none(string lines) => Assert.Empty(Read(lines).Findings);

    [Theory]
    [InlineData("=======\n  start at 20:15\n")]
    [InlineData(">>>>>>> summer\n  start at 20:15\n")]
    [InlineData("<<<<<<<< HEAD\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>> summer\n")]
    [InlineData("<<<<<<< HEAD\n  start at 20:15\n>>>>>>> summer\n")]
    [InlineData("=======\n<<<<<<< HEAD\n  start at 20:15\n>>>>>>> summer\n")]
    public void Stray_markers_are_no_conflict_and_no_sense(string lines)
    {
        var found = Read(lines).Findings;
        Assert.DoesNotContain(found, finding => finding.Heading.StartsWith("unfinished merge", StringComparison.Ordinal));
        Assert.Contains(found, finding => finding.Rule.Slug == "syntax" && finding.Severity == Severity.Error);
    }

    /// <summary>A beginning that has no end is left behind where another begins.</summary>
    [Fact]
    public void A_conflict_that_is_not_finished_hides_none_after_it()
    {
        var found = Read("<<<<<<< HEAD\n  # one\n=======\n<<<<<<< HEAD\n  start at 20:15\n=======\n  start at 21:00\n>>>>>>> summer\n").Findings;
        Assert.Contains("8 unfinished merge, lines 8 to 12", found.Select(Line));
        Assert.Contains(found, finding => finding.Primary.Location.Start.Line == 5);
    }

    private static WaterScript.Binding.SiteReading Read(string lines, string lineEnd = "\n") =>
        Expect.Read((Head + lines + Tail).ReplaceLineEndings(lineEnd));

    private static (string Place, string Text) Shown(Label label) =>
        ($"{label.Location.Start.Line}:{label.Location.Start.Column} {label.Location.Text}", label.Text);

    private static string Line(Finding finding) => $"{finding.Primary.Location.Start.Line} {finding.Heading}";
}
