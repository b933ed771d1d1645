using System.Globalization;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Changes;

/// <summary>Names for what stands in steps: a quantity, or a list of zones that stands there twice. What is watered stays what it was.</summary>
/// <param name="site">The site, checked without an error.</param>
/// <param name="names">Its names.</param>
/// <param name="file">The file.</param>
internal sealed class NamedParts(CheckedSite site, NameIndex names, FileNode file)
{
    /// <summary>A longer file is not read again for each place that the cursor comes to.</summary>
    private const int MostCharacters = 200_000;

    private const int MostNames = 99;

    /// <summary>Those at a stretch of the file.</summary>
    /// <param name="body">The statement at the top of the file that the stretch lies in.</param>
    /// <param name="steps">All steps in it, those inside of others too.</param>
    /// <param name="span">The stretch.</param>
    public IEnumerable<EditorAction> At(StatementNode body, IReadOnlyList<StepNode> steps, TextSpan span)
    {
        if (site.Reading.Files.Sum(each => each.Source.Text.Length) > MostCharacters) return [];
        return Quantities(body, steps, span).Concat(Groups(body, steps, span)).Where(action => SameWatering.WhyNot(site.Reading, action.Edits) is null);
    }

    private IEnumerable<EditorAction> Quantities(StatementNode body, IReadOnlyList<StepNode> steps, TextSpan span)
    {
        var row = steps.SelectMany(RowsOf).FirstOrDefault(each => each.Span.Contains(span));
        if (row is not { Tokens: [{ Kind: TokenKind.Number }, { } unit] } || Units.Find(unit.Text) is not { } known) yield break;
        var written = file.Source.Slice(row.Span);
        var name = Free(known.Dimension switch
        {
            Dimension.Time => "run-time",
            Dimension.Volume => "amount",
            _ => "depth",
        }, NameKind.Let);
        yield return new EditorAction(EditorAction.Extract, $"Give {DisplayLine.CleanLine(written)} a name",
            [Above(body, $"let {name} = {written}"), new TextEdit(new Location(file.Source, row.Span), name)]);
    }

    private static IEnumerable<RowNode> RowsOf(StepNode step) => (step switch
    {
        WaterNode water => [water.For, water.With],
        PauseNode pause => [pause.Duration],
        CycleNode cycle => [cycle.Cycle, cycle.Soak],
        _ => Array.Empty<RowNode?>(),
    }).OfType<RowNode>();

    private IEnumerable<EditorAction> Groups(StatementNode body, IReadOnlyList<StepNode> steps, TextSpan span)
    {
        var list = steps.OfType<WaterNode>().Select(water => water.Zones).FirstOrDefault(zones => zones.Span.Contains(span));
        if (list is null || list.Parts.Sum(part => part.Names.Length) < 2) yield break;
        var meant = Written(list);
        Location[] places = [.. file.Statements.SelectMany(ZonesIn).Where(zones => Written(zones) == meant)
            .Select(zones => new Location(file.Source, zones.Span))];
        if (places.Length < 2) yield break;
        var first = file.Statements.First(statement => statement.Span.Contains(places[0].Span));
        var name = Free($"{list.Parts[0].Names[0].Text}-group", NameKind.Zone);
        yield return new EditorAction(EditorAction.Extract, $"Group {meant}",
            [Above(first, $"group {name} = {meant}"), .. places.Select(place => new TextEdit(place, name))]);
    }

    private static IEnumerable<ZoneListNode> ZonesIn(StatementNode statement) => Rewrites.StepsIn(statement).OfType<WaterNode>().Select(water => water.Zones);

    /// <summary><c>lemons + vines, herbs</c></summary>
    private static string Written(ZoneListNode zones) =>
        string.Join(", ", zones.Parts.Select(part => string.Join(" + ", part.Names.Select(name => name.Text))));

    private TextEdit Above(StatementNode statement, string line)
    {
        var start = file.Source.LineSpan(file.Source.PositionOf(statement.Span.Start).Line).Start;
        return new TextEdit(new Location(file.Source, new TextSpan(start, 0)), $"{line}\n\n");
    }

    /// <summary>A name that nothing has yet.</summary>
    private string Free(string name, NameKind kind)
    {
        bool IsFree(string candidate) => names.DeclarationOf(kind, candidate) is null && names.DeclarationOf(NameKind.Let, candidate) is null
            && !LanguageWords.Contains(candidate);
        if (IsFree(name)) return name;
        return Enumerable.Range(2, MostNames).Select(number => string.Create(CultureInfo.InvariantCulture, $"{name}-{number}")).First(IsFree);
    }
}
