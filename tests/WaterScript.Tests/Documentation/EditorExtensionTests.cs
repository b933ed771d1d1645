using System.Text.Json;
using System.Text.RegularExpressions;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The files of the editor extension say what the language is; here they are compared with it, without the tools of an editor.</summary>
public sealed partial class EditorExtensionTests
{
    private const string Folder = "src/WaterScript.VSCode/";
    private static readonly string Grammar = Repository.Read($"{Folder}syntaxes/waterscript.tmLanguage.json");
    private static readonly JsonElement Package = JsonDocument.Parse(Repository.Read($"{Folder}package.json")).RootElement;

    public static TheoryData<string> Snippets =>
        [.. JsonDocument.Parse(Repository.Read($"{Folder}snippets/waterscript.json")).RootElement.EnumerateObject().Select(snippet => snippet.Name)];

    [Fact]
    public void Every_word_of_the_grammar_is_coloured_and_no_other()
    {
        var words = Enumerable.Range(WaterScriptLexer.INCLUDE, WaterScriptLexer.WORD - WaterScriptLexer.INCLUDE)
            .Select(type => WaterScriptLexer.DefaultVocabulary.GetLiteralName(type).Trim('\''));
        Assert.Equal(words.Order(StringComparer.Ordinal), [.. Alternatives("keyword").Order(StringComparer.Ordinal)]);
    }

    [Fact]
    public void Every_kind_of_block_is_a_declaration() =>
        Assert.All(
            Schema.Blocks.Select(block => block.Kind.Split(' ')[0]), kind => Assert.Contains(kind, Alternatives("declaration").Concat(Alternatives("block"))));

    [Fact]
    public void Every_word_that_a_property_takes_is_coloured()
    {
        var types = Schema.Blocks.SelectMany(block => block.Properties).Select(property => property.ValueType).OfType<WordType>();
        Assert.All(types.SelectMany(type => type.Words), word => Assert.Contains(word, Alternatives("value")));
    }

    [Fact]
    public void Every_unit_is_coloured_with_its_number() =>
        Assert.All(Units.All.Select(unit => unit.Symbol).Distinct(), unit => Assert.Contains(unit, Alternatives("quantity")));

    [Theory]
    [MemberData(nameof(Snippets))]
    public void A_snippet_with_its_fields_filled_in_can_be_read(string name)
    {
        var body = JsonDocument.Parse(Repository.Read($"{Folder}snippets/waterscript.json")).RootElement.GetProperty(name).GetProperty("body")
            .EnumerateArray().Select(line => line.GetString()!);
        var text = EmptyField().Replace(FieldWithText().Replace(string.Join('\n', body), "${text}"), "5").Replace("$0", "", StringComparison.Ordinal);
        var findings = new FindingList();
        var tree = Parser.Parse(SourceText.From("snippet.water", text), findings);
        Assert.Empty(findings.Select(finding => finding.Heading));
        Assert.NotEmpty(tree.Statements);
    }

    [Fact]
    public void Every_setting_stands_in_the_page_of_the_extension()
    {
        var page = Repository.Read($"{Folder}README.md");
        var settings = Package.GetProperty("contributes").GetProperty("configuration").GetProperty("properties").EnumerateObject();
        Assert.All(settings, setting => Assert.Contains($"`{setting.Name}`", page, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_command_is_carried_out()
    {
        var source = Repository.Read($"{Folder}src/extension.ts");
        var commands = Package.GetProperty("contributes").GetProperty("commands").EnumerateArray();
        Assert.All(commands.Select(command => command.GetProperty("command").GetString()!), command => Assert.True(
            source.Contains($"'{command}'", StringComparison.Ordinal) || source.Contains($"command('{command.Split('.')[1]}'", StringComparison.Ordinal),
            command));
    }

    /// <summary>The words that an entry of the grammar lists, wherever in it: <c>(on|off)</c>.</summary>
    private static HashSet<string> Alternatives(string entry)
    {
        var node = JsonDocument.Parse(Grammar).RootElement.GetProperty("repository").GetProperty(entry);
        return [.. Matches(node).SelectMany(pattern => List().Matches(pattern)).SelectMany(list => list.Groups["words"].Value.Split('|'))];
    }

    private static IEnumerable<string> Matches(JsonElement node) => node.ValueKind switch
    {
        JsonValueKind.Object => node.EnumerateObject()
            .SelectMany(property => property.Name == "match" ? [property.Value.GetString()!] : Matches(property.Value)),
        JsonValueKind.Array => node.EnumerateArray().SelectMany(Matches),
        _ => [],
    };

    [GeneratedRegex(@"\((?:\?:)?(?<words>[A-Za-z0-9%/-]+(\|[A-Za-z0-9%/-]+)+)\)|\((?<words>%)\|")]
    private static partial Regex List();

    [GeneratedRegex(@"\$\{\d+:(?<text>[^}]*)\}")]
    private static partial Regex FieldWithText();

    [GeneratedRegex(@"\$\{\d+\}")]
    private static partial Regex EmptyField();
}
