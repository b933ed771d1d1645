using System.Globalization;
using System.Text;
using WaterScript.Text.Diffs;
using WaterScript.Text.Lines;
using Xunit;

namespace WaterScript.Tests.Text;

public sealed class UnifiedDiffTests
{
    private const int Pairs = 3_000;

    [Fact]
    public void Equal_texts_have_none() => Assert.Equal("", Diff("a", "b", "x\ny\n", "x\ny\n"));

    /// <summary>The form of GNU diff -u, without its times.</summary>
    [Fact]
    public void A_change_stands_among_three_lines() => Assert.Equal(
        "--- old\n+++ new\n@@ -2,7 +2,7 @@\n 2\n 3\n 4\n-5\n+five\n 6\n 7\n 8\n",
        Diff("old", "new", "1\n2\n3\n4\n5\n6\n7\n8\n9\n", "1\n2\n3\n4\nfive\n6\n7\n8\n9\n"));

    [Fact]
    public void Changes_far_apart_stand_apart_and_near_ones_together()
    {
        var lines = Enumerable.Range(1, 40).Select(line => line.ToString(CultureInfo.InvariantCulture)).ToArray();
        string With(params int[] gone) => string.Concat(lines.Where((_, index) => !gone.Contains(index)).Select(line => line + "\n"));
        Assert.Equal(2, Diff("a", "b", With(), With(5, 12)).Split("@@ -").Length);
        Assert.Equal(3, Diff("a", "b", With(), With(5, 13)).Split("@@ -").Length);
    }

    [Theory]
    [InlineData("", "x\n", "@@ -0,0 +1,1 @@\n+x\n")]
    [InlineData("x\n", "", "@@ -1,1 +0,0 @@\n-x\n")]
    [InlineData("x", "x\n", "@@ -1,1 +1,1 @@\n-x\n\\ No newline at end of file\n+x\n")]
    [InlineData("x\r\n", "x\n", "@@ -1,1 +1,1 @@\n-x\r\n+x\n")]
    public void Ends_are_reported(string old, string @new, string hunk) => Assert.Equal("--- a\n+++ b\n" + hunk, Diff("a", "b", old, @new));

    [Fact]
    public void Applied_to_the_old_text_it_gives_the_new_one_with_the_fewest_changes()
    {
        var random = new Random(7);
        for (var i = 0; i < Pairs; i++)
        {
            var (old, @new) = (RandomText(random), RandomText(random));
            var diff = Diff("a", "b", old, @new);
            Assert.Equal(@new, Apply(old, diff));
            var changed = diff.Split('\n').Skip(2).Count(line => line.StartsWith('-') || line.StartsWith('+'));
            Assert.Equal(FewestChanges(old.Split('\n')[..^1], @new.Split('\n')[..^1]), changed);
        }
    }

    [Fact]
    public void Texts_that_differ_beyond_measure_are_reported_as_one_change()
    {
        string Text(string word) => string.Concat(Enumerable.Range(0, 3_000).Select(line => string.Create(CultureInfo.InvariantCulture, $"{word} {line}\n")));
        var (old, @new) = (Text("old"), Text("new"));
        Assert.Equal(@new, Apply(old, Diff("a", "b", old, @new)));
    }

    private static string Diff(string oldName, string newName, string oldText, string newText)
    {
        using var output = new StringWriter();
        UnifiedDiff.Write(oldName, newName, oldText, newText, new PlainLines(output));
        return output.ToString();
    }

    private static string RandomText(Random random) =>
        string.Concat(Enumerable.Range(0, random.Next(14)).Select(_ => (char)('a' + random.Next(4)) + "\n"));

    /// <summary>Carries out a diff of texts whose lines all end with LF.</summary>
    private static string Apply(string old, string diff)
    {
        var lines = old.Split('\n')[..^1];
        var text = new StringBuilder();
        var at = 0;
        foreach (var line in diff.Split('\n').Skip(2).Where(line => line.Length > 0))
        {
            if (line.StartsWith("@@", StringComparison.Ordinal))
            {
                var range = line.Split(' ')[1][1..].Split(',').Select(number => int.Parse(number, CultureInfo.InvariantCulture)).ToArray();
                var start = range[1] == 0 ? range[0] : range[0] - 1;
                for (; at < start; at++) text.Append(lines[at]).Append('\n');
                continue;
            }

            if (line[0] != '+') Assert.Equal(lines[at++], line[1..]);
            if (line[0] != '-') text.Append(line.AsSpan(1)).Append('\n');
        }

        for (; at < lines.Length; at++) text.Append(lines[at]).Append('\n');
        return text.ToString();
    }

    /// <summary>By the longest common subsequence.</summary>
    private static int FewestChanges(string[] old, string[] @new)
    {
        var common = new int[old.Length + 1, @new.Length + 1];
        for (var i = 1; i <= old.Length; i++)
        {
            for (var j = 1; j <= @new.Length; j++)
                common[i, j] = old[i - 1] == @new[j - 1] ? common[i - 1, j - 1] + 1 : Math.Max(common[i - 1, j], common[i, j - 1]);
        }

        return old.Length + @new.Length - (2 * common[old.Length, @new.Length]);
    }
}
