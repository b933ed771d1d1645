using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Documents.Writers;
using Xunit;

namespace WaterScript.Tests.Documents.Writers;

public class YamlWriterTests
{
    [Fact]
    public void Maps_and_lists_stand_as_a_person_would_write_them()
    {
        Assert.Equal(
            """
            site: {name: garden, open: true}
            empty: {}
            none: {}
            zones:
              - name: lawn
                label: "Front lawn"
                parts:
                  - [a, "on"]
                  - []
              - {}
              - - 1
                - 2.50
            end: {runs: 2}

            """.ReplaceLineEndings("\n"),
            Write(writer =>
            {
                writer.Map("site", () => { writer.Entry("name", "garden"); writer.EntryIf("open", true); }, Layout.OneLine);
                writer.Map("empty", () => { });
                writer.Key("none");
                writer.StartMap(Layout.OneLine);
                writer.EndMap();
                writer.Key("zones");
                writer.StartList();
                writer.Map(() =>
                {
                    writer.Entry("name", "lawn");
                    writer.Entry("label", "Front lawn");
                    writer.Key("parts");
                    writer.StartList();
                    writer.StartList(Layout.OneLine);
                    writer.Text("a");
                    writer.Text("on");
                    writer.EndList();
                    writer.StartList();
                    writer.EndList();
                    writer.EndList();
                });
                writer.Map(() => { });
                writer.StartList();
                writer.Number(1);
                writer.Number(2.50m);
                writer.EndList();
                writer.EndList();
                writer.Map("end", () => writer.Entry("runs", 2L), Layout.OneLine);
            }));
    }

    /// <summary>
    /// Texts that a YAML 1.1 reader takes for something else: yaml.org/type, bool, null, int, float, timestamp, merge, value; and indicators.
    /// </summary>
    [Theory]
    [InlineData("06:00")]
    [InlineData("6:30:00")]
    [InlineData("2026-05-01")]
    [InlineData("2026-05-01T06:00:00+01:00")]
    [InlineData("on")]
    [InlineData("off")]
    [InlineData("yes")]
    [InlineData("no")]
    [InlineData("y")]
    [InlineData("n")]
    [InlineData("null")]
    [InlineData("true")]
    [InlineData("~")]
    [InlineData("")]
    [InlineData("<<")]
    [InlineData("=")]
    [InlineData("3.2")]
    [InlineData("1_000")]
    [InlineData("0o17")]
    [InlineData("017")]
    [InlineData("0x1f")]
    [InlineData("1e3")]
    [InlineData(".inf")]
    [InlineData("- a")]
    [InlineData("a: b")]
    [InlineData("a #b")]
    [InlineData("#b")]
    [InlineData("{a}")]
    [InlineData("&a")]
    [InlineData("*a")]
    [InlineData("!a")]
    [InlineData("%a")]
    [InlineData("@a")]
    [InlineData("---")]
    public void What_another_reader_could_take_for_something_else_is_quoted(string text) =>
        Assert.Equal($"a: \"{text}\"\n", Write(writer => writer.Entry("a", text)));

    [SampledProperty(2_000)]
    public void Any_text_comes_back(string? text)
    {
        if (text is null || text.EnumerateRunes().Any(rune => rune == Rune.ReplacementChar)) return;
        var tree = Trees.FromYaml(Write(writer => writer.Entry("a", text)));
        Assert.Equal(text, tree!["a"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("\u0000\u001b\u007f\u0085\u2028\u2029\ufeff\ufffe")]
    [InlineData("a\r\nb\tc \"d\" \\e")]
    [InlineData("草 🌱")]
    public void Control_characters_and_all_scripts_come_back(string text)
    {
        var yaml = Write(writer => writer.Entry("a", text));
        Assert.Equal(text, Trees.FromYaml(yaml)!["a"]!.GetValue<string>());
        Assert.Equal(1, yaml.Count(letter => letter is '\n' or '\r' or '\u0085' or '\u2028' or '\u2029'));
    }

    [Fact]
    public void Json_gives_the_same_tree()
    {
        static void Fill(DocumentWriter writer)
        {
            writer.Entry("a", "06:00 \u2028 <&> 草 🌱");
            writer.List("b", [1, 2, 3], item => writer.Number(item));
            writer.Entry("c", -12.50m);
        }

        var output = new MemoryStream();
        using (var json = new JsonWriter(output, isIndented: true)) json.Map(() => Fill(json));
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(output.ToArray()), Trees.FromYaml(Write(Fill))));
    }

    private static string Write(Action<DocumentWriter> fill)
    {
        var output = new MemoryStream();
        using (var writer = new YamlWriter(output)) writer.Map(() => fill(writer));
        return Encoding.UTF8.GetString(output.ToArray());
    }
}
