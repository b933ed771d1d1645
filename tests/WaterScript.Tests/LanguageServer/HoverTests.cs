using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>
/// What is shown beside the two examples. Times and amounts are those that <c>next</c> and the chart show for the same dates; sums over a week, a month and a
/// year were worked out by hand from the days and shares in the file.
/// </summary>
public sealed class HoverTests : Workshop
{
    [Theory]
    [InlineData("zone lemons \"", 6, """
        **zone lemons** "Lemon terrace", output 1 of wall, supply cistern, 7.0 mm/h
        Next: Mon 4 May 2026 20:59 to 21:47, 672 L, 5.6 mm (evening, line 48)
        Week of 4 May: 3 times, 2016 L, 16.8 mm. May: 13 times, 8736 L, 73 mm
        Year from 1 Mar 2026: 78 times, 54600 L, 455 mm
        Not checked: runoff, water below the roots (add soil), water need (add climate)
        """)]
    [InlineData("water upper for", 0, """
        **water upper for 1 h**, step 1.1 of evening
        Mon 4 May 2026, at 80 %: 20:59 to 21:47, 48 min; 20.0 of 30 L/min
        lemons 672 L, 5.6 mm; vines 288 L, 1.4 mm
        At 100 %: 1 h; lemons 840 L, 7.0 mm; vines 360 L, 1.8 mm
        """)]
    [InlineData("water lawn with", 0, """
        **water lawn with 9 mm**, step 1.4 of evening
        9 mm ÷ 12.0 mm/h (16 L/min on 80 m2) = 45 min, 720 L; no efficiency given
        Mon 4 May 2026, at 80 %: 22:10:41 to 22:46:41, 36 min, 576 L, 7.2 mm
        """)]
    [InlineData("cycle 4 min", 0, """
        **cycle 4 min soak 6 min**, step 1.3 of evening, Mon 4 May 2026, at 80 %
        salad 9 min 36 s = 3 × 3 min 12 s; herbs (trim 80 %) 7 min 41 s = 3 min 51 s + 3 min 50 s
        21:49 salad, 21:52:17 herbs, 21:58:12 salad, 22:02:08 herbs, 22:07:24 to 22:10:36 salad
        21 min 36 s, of which 4 min 19 s without water
        """)]
    [InlineData("on mon, wed", 0, """
        **on mon, wed, fri**: 78 dates in the year from 1 Mar 2026
        Mon 4, Wed 6, Fri 8, Mon 11, Wed 13, Fri 15, Mon 18, Wed 20, Fri 22, Mon 25 May 2026
        Not 10 Jun 2026: except, line 59
        """)]
    [InlineData("start at sunset", 0, """
        **start at sunset + 30 min**: Mon 4 May 20:59, Wed 6 May 21:01, Fri 8 May 21:03
        Sunset 20:29, 20:31, 20:33. In the season from 19:47 (30 Sep) to 21:34 (3 Jul)
        The pass takes 1 h 47 min 41 s on Mon 4 May, to 22:46:41
        """)]
    [InlineData("14 L/min", 0, "840 L/h, 0.84 m3/h, 3.70 gpm, 222 gph")]
    [InlineData("1.5 mm2", 0, "between 15 AWG (1.65 mm2) and 16 AWG (1.31 mm2)")]
    [InlineData("stagger  300", 0, "**stagger** of a controller: time between two openings. Default 0 s.\nms, s, min, h")]
    [InlineData("method bubbler", 0, "**method** of a zone: how it is watered. Optional.\ndrip, bubbler, spray, rotor, mist")]
    [InlineData("uneven-together", 0, """
        **uneven-together** (advice): one time for zones that need different ones
        Accepts 2 findings here: lines 48 and 51
        More: waterscript explain uneven-together
        """)]
    [InlineData("pump lift", 5, """
        **pump lift**, output 8 of wall, serves lemons, herbs, vines, salad, lawn (all of cistern)
        Mon 4 May 2026: on 7 times, 1 h 40 min 49 s
        May: on 91 times, 21 h 50 min 37 s
        """)]
    [InlineData("salad, herbs", 0, """
        **zone salad** "Salad beds", output 4 of wall, supply cistern, 20.0 mm/h
        Next: Mon 4 May 2026 21:49 to 22:10:36, 3 times, 96 L, 3.2 mm (evening, line 51)
        """)]
    [InlineData("scale year\n", 6, """
        **scale year**, of all schedules but seedlings (scale 100 %, line 69)
        A pass of evening: apr 1276 L, may 1701 L, jun 2126 L, jul 2126 L, aug 2020 L, sep 1382 L
        A month not listed is 100 %; on Mon 4 May 2026: 80 %
        """)]
    public void Terraces(string place, int more, string card) => AssertCard("examples/terraces.water", "2026-05-04T09:00:00Z", place, more, card);

    [Theory]
    [InlineData("burst }", 0, "**let burst = 12 s**, used twice: line 38, line 46")]
    [InlineData("cut off at", 0, """
        **cut off at 21:00**: Mon 7 Dec ends 20:40, 20 min before
        Cuts nothing to 31 Jul 2028
        """)]
    [InlineData("through feeder }", 0, """
        **through feeder**: doses 12 min of 25 min, 5 min after the start, 8 min of rinse
        Next: Mon 7 Dec 2026 20:20 to 20:32
        """)]
    [InlineData("loam", 0, null)]
    [InlineData("# Feeds", 3, null)]
    public void Nursery(string place, int more, string? card) => AssertCard("examples/nursery.water", "2026-11-25T08:00:05Z", place, more, card);

    /// <summary>Within 20:00 to 09:00 and three days a week the terraces are watered as they are written; two days a week break it.</summary>
    [Theory]
    [InlineData(3, "Kept on all dates to 31 Dec 2027")]
    [InlineData(2, "Broken: 1 finding")]
    public void A_restriction(int days, string kept)
    {
        var text = Repository.Read("examples/terraces.water").Replace("\ngroup upper", "\nrestriction town \"Town rule\" {\n  for lawn\n"
            + $"  from 1 jun to 30 sep\n  allow between 20:00 and 09:00\n  at most {days} days a week\n}}\n\ngroup upper", StringComparison.Ordinal);
        using var editor = new EditorClient(Folder, "2026-05-04T09:00:00Z");
        editor.Open("site.water", text);
        _ = editor.Findings("site.water");
        var line = Array.FindIndex(text.Split('\n'), each => each.StartsWith("restriction town", StringComparison.Ordinal));
        var lines = Plain(editor.Request("textDocument/hover", editor.At("site.water", line, 13))).Split('\n');
        Assert.Equal(
            [
                "**restriction town** \"Town rule\", binds lawn, in force from Mon 1 Jun 2026", $"allow between 20:00 and 09:00; at most {days} days a week",
                kept, "Checked as written here; the authority's text governs.",
            ],
            lines.Select(each => each.StartsWith("Kept", StringComparison.Ordinal) ? kept : each));
        Assert.StartsWith(kept.Split(' ')[0], lines[2], StringComparison.Ordinal);
    }

    private void AssertCard(string path, string now, string place, int more, string? card)
    {
        var text = Repository.Read(path);
        Write("site.water", text);
        using var editor = new EditorClient(Folder, now);
        editor.Open("site.water", text);
        _ = editor.Findings("site.water");
        if (text.IndexOf(place, StringComparison.Ordinal) is not (>= 0 and var offset)) return;
        var line = text[..offset].Count(letter => letter == '\n');
        var hover = editor.Request("textDocument/hover", editor.At("site.water", line, offset + more - (text.LastIndexOf('\n', Math.Max(0, offset - 1)) + 1)));
        Assert.True(Plain(hover).StartsWith(card ?? "", StringComparison.Ordinal), Plain(hover));
        Assert.Equal(card is null, hover is null);
    }

    /// <summary>What is read, without the marks that keep a text of the file from being markup.</summary>
    private static string Plain(JsonNode? hover) =>
        ((string?)hover?["contents"]!["value"] ?? "").Replace("  \n", "\n", StringComparison.Ordinal).Replace("\\", "", StringComparison.Ordinal);
}
