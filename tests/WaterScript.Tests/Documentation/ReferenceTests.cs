using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Quantities;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// What the reference lists is what the compiler has. The tables of properties are written from the schema:
/// <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter ReferenceTests</c> writes them, and without that a stale table fails.
/// </summary>
public class ReferenceTests
{
    private const string Page = "docs/language.md";

    private static string Reference => Repository.Read(Page).ReplaceLineEndings("\n");

    public static TheoryData<string> Kinds => [.. Schema.Blocks.Select(block => block.Kind).Where(kind => kind != "master")];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_table_of_a_block_is_that_of_the_schema(string kind)
    {
        var block = Block(kind);
        var shown = kind == "injector" ? block with { Properties = [.. block.Properties.Except(Block("pump").Properties)] } : block;

        if (Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1") WriteAfter(SchemaTable.MarkerOf(block), SchemaTable.Of(shown));
        Assert.Equal(SchemaTable.Of(shown), TableAfter(SchemaTable.MarkerOf(block)));
    }

    [Fact]
    public void A_master_has_the_properties_of_a_pump() =>
        Assert.Equal(Block("pump").Properties, Block("master").Properties);

    [Theory]
    [InlineData(Limits.NestingDepth, "braces inside braces")]
    [InlineData(Limits.NameDepth, "sequences, groups, lets, supplies or schedules")]
    [InlineData(Limits.FileLength, "characters of a file")]
    [InlineData(Limits.Includes, "included files")]
    [InlineData(Limits.RunsPerPass, "runs and pauses of one pass")]
    [InlineData(Limits.PassesPerDay, "passes of a schedule on one date")]
    [InlineData(Limits.PassDays, "days that a pass")]
    [InlineData(Limits.ErrorsPerFile, "errors shown of one file")]
    public void A_limit_is_that_of_the_compiler(int limit, string what) =>
        Assert.Contains(Reference.Split('\n'), line =>
            line.StartsWith(string.Create(CultureInfo.InvariantCulture, $"| {limit:N0} |"), StringComparison.Ordinal)
            && line.Contains(what, StringComparison.Ordinal));

    [Fact]
    public void The_units_of_each_row_are_those_of_a_dimension()
    {
        var rows = Reference.Split("\n## Units\n")[1].Split("\n## ")[0].Split('\n').Where(line => line.StartsWith("| ", StringComparison.Ordinal)).Skip(2);
        Assert.Equal(
            Enum.GetValues<Dimension>().Select(dimension => Sorted(Units.Of(dimension).Select(unit => unit.Symbol))),
            rows.Select(row => Sorted(row.Split('`').Where((_, index) => index % 2 == 1))));
    }

    private static string Sorted(IEnumerable<string> symbols) => string.Join(' ', symbols.Order(StringComparer.Ordinal));

    private static BlockSchema Block(string kind) => Schema.Blocks.Single(block => block.Kind == kind);

    private static void WriteAfter(string marker, string table) =>
        File.WriteAllText(Path.Combine(Repository.Root, Page), Reference.Replace(marker + TableAfter(marker), marker + table, StringComparison.Ordinal));

    private static string TableAfter(string marker)
    {
        var reference = Reference;
        var at = reference.IndexOf(marker, StringComparison.Ordinal);
        Assert.True(at >= 0, $"{Page} does not hold {marker}");
        var lines = reference[(at + marker.Length)..].Split('\n').TakeWhile(line => line.StartsWith('|'));
        return string.Concat(lines.Select(line => line + "\n"));
    }
}
