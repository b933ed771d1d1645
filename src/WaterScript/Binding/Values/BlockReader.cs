using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Reads the properties of a block by the schema.</summary>
internal static class BlockReader
{
    /// <summary>Reads a block; every property that is unknown, stands twice, is missing or cannot be read is reported.</summary>
    public static BoundBlock Read(BlockNode node, SourceText source, BlockSchema schema, Scope scope)
    {
        var properties = new List<BoundProperty>(node.Body.Length);
        foreach (var statement in Statements(node.Body, source, schema, scope))
        {
            if (statement is PropertyNode property && Find(property, source, schema, scope, node.Span, IsStated) is { } known)
                Add(property, known, source, schema, properties, scope);
            if (statement is BlockNode inner) CheckInner(inner, source, schema, scope);
        }

        var block = new BoundBlock(node, source, properties);
        var missing = schema.Properties.Where(required => IsMissing(required, block)).ToArray();
        if (missing.Length == 0 || scope.HasMisreadIn(new Location(source, node.Span))) return block;
        foreach (var required in missing) ReportMissing(block, schema, required, scope);
        return block;

        bool IsStated(string name) => node.Body.OfType<PropertyNode>().Any(property => property.Name.Text == name);
    }

    private static bool IsMissing(Property property, BoundBlock block) =>
        property.IsRequired && !block.Has(property) && !block.Properties.Any(other => other.Property.Name == property.OrElse);

    /// <summary>The statements of a body. Braces after a property are reported and read as if they were not there.</summary>
    private static IEnumerable<StatementNode> Statements(ImmutableArray<StatementNode> body, SourceText source, BlockSchema schema, Scope scope)
    {
        foreach (var statement in body)
        {
            if (statement is not BlockNode braced || schema.Find(braced.Kind.Text) is null)
            {
                yield return statement;
                continue;
            }

            scope.Report(Mistakes.Bare(new Location(source, braced.Brace), Place.Description));
            yield return new PropertyNode(TextSpan.FromBounds(braced.Span.Start, Math.Max(braced.Row.Span.End, braced.Kind.Span.End)), braced.Kind, braced.Row);
            foreach (var inside in Statements(braced.Body, source, schema, scope)) yield return inside;
        }
    }

    private static Property? Find(PropertyNode node, SourceText source, BlockSchema schema, Scope scope, TextSpan inside, Predicate<string> isStated)
    {
        if (schema.Find(node.Name.Text) is { } property) return property;
        if (scope.Findings.Any(finding => finding.Primary.Text == "begin here" && finding.Primary.Location is var bare && bare.Source == source
            && inside.Contains(bare.Span) && bare.Span.Start < node.Span.Start)) return null;
        var location = new Location(source, node.Name.Span);
        var names = schema.Properties.Select(known => known.Name).ToArray();
        var home = Words.HomeOf(node.Name.Text);
        var nearest = KnownTypos.Month(node.Name.Text) is { } month && names.Contains(month) ? month
            : home is null || names.Any(name => name == node.Name.Text + "s") ? Meant(node.Name.Text, names) : null;
        var elsewhere = Schema.Blocks.FirstOrDefault(other => other.Find(node.Name.Text) is not null);
        scope.Report(Finding.At(ReadingRules.UnknownProperty, location, $"{schema.Article} has no property \"{node.Name.Text}\"",
            nearest is null ? "" : $"did you mean `{nearest}`?") with
        {
            Details = elsewhere is null ? "" : $"It belongs to {elsewhere.Article}.",
            Help = nearest is not null ? $"Write `{nearest}`." : (elsewhere is null ? home : null) ?? $"Its properties are {ListOf(names)}.",
            Fix = nearest is null || isStated(nearest) ? null : Fix.Spelt(location, nearest, names),
        });
        return null;
    }

    /// <summary>The property whose first word alone was written, where there is one such: <c>minimum-flow</c> for <c>minimum</c>; else the nearest.</summary>
    private static string? Meant(string written, string[] names) =>
        names.Where(name => name.StartsWith($"{written}-", StringComparison.OrdinalIgnoreCase)).ToArray() is [var longer]
            ? longer
            : Spelling.Apart(written, names, _ => false) ?? Spelling.Nearest(written, names);

    /// <summary>The twelve months as what they are; <c>at</c> with the word that always follows it.</summary>
    private static string ListOf(IReadOnlyCollection<string> names)
    {
        var listed = names.Except(DateReader.Months).Select(name => name == "at" ? "at most" : name);
        return string.Join(", ", names.Contains("jan") ? listed.Append("the months, jan to dec") : listed);
    }

    private static void Add(PropertyNode node, Property property, SourceText source, BlockSchema schema, List<BoundProperty> properties, Scope scope)
    {
        var origin = new Location(source, node.Span);
        if (!property.MayRepeat && FirstOf(property, properties) is { } first)
        {
            scope.Report(Finding.At(ReadingRules.StatedTwice, new Location(source, node.Name.Span), $"\"{property.Name}\" is stated twice",
                "the second time") with
            {
                Others = [new Label(first.Origin, "the first time")],
                Help = "Delete one of the two.",
            });
            return;
        }

        var row = new RowCursor(scope, source, node.Value, property.Form) { Block = schema };
        var value = PropertyReaders.ValueOf(property.ValueType, row);
        var second = row.HasFailed ? null : Second(row);
        if (second is null) row.End();
        properties.Add(new BoundProperty(property, origin, new Location(source, node.Value.Span), row.HasFailed ? null : value));
        if (second is not null) AddSecond(second, node, source, schema, properties, scope);
    }

    private static BoundProperty? FirstOf(Property property, List<BoundProperty> properties)
    {
        foreach (var bound in properties)
        {
            if (bound.Property.Is(property)) return bound;
        }

        return null;
    }

    /// <summary>What is left over of a row, where it is a property of its own with a value; null where it is none.</summary>
    private static PropertyNode? Second(RowCursor row)
    {
        if (row.Left is not [{ Kind: TokenKind.Word } name, .. { Length: > 0 } rest] || row.Block?.Find(name.Text) is null
            || row.Location.Span.Start == name.Span.Start)
            return null;
        var value = new RowNode(TextSpan.Cover(rest[0].Span, rest[^1].Span), rest);
        return new PropertyNode(TextSpan.Cover(name.Span, value.Span), new NameNode(name.Span, name.Text), value);
    }

    /// <summary><c>output 2 flow 2 L/min</c>: a property that is written behind another one.</summary>
    private static void AddSecond(
        PropertyNode second, PropertyNode first, SourceText source, BlockSchema schema, List<BoundProperty> properties, Scope scope)
    {
        var end = first.Value.Tokens.Last(token => token.Span.End <= second.Span.Start).Span.End;
        scope.Report(Finding.At(ReadingRules.Syntax, new Location(source, second.Name.Span), $"`;` is missing before \"{second.Name.Text}\"") with
        {
            Help = $"Write a `;` before `{second.Name.Text}`, or begin a new line.",
            Fix = Fix.Safe("write `;`", new Location(source, new TextSpan(end, 0)), ";"),
        });
        Add(second, schema.Find(second.Name.Text)!, source, schema, properties, scope);
    }

    private static void CheckInner(BlockNode inner, SourceText source, BlockSchema schema, Scope scope)
    {
        if (!schema.Inner.Contains(inner.Kind.Text))
        {
            var place = new Location(source, inner.Kind.Span);
            scope.Report(ReadingRules.UnknownProperty, place, $"{schema.Article} has no block \"{inner.Kind.Text}\"",
                help: Words.HomeOf(inner.Kind.Text) ?? "");
        }
        else if (!inner.Row.Tokens.IsEmpty)
        {
            var place = new Location(source, inner.Row.Span);
            scope.Report(ReadingRules.Syntax, place, $"{place.Text} does not belong here", "the block has no name", $"Write {inner.Kind.Text} {{ … }}");
        }
    }

    private static void ReportMissing(BoundBlock block, BlockSchema schema, Property property, Scope scope) =>
        scope.Report(ReadingRules.Missing, block.Origin, $"{schema.Kind} \"{block.Name.Text}\" has no {property.Name}",
            help: $"Add a line such as `{property.Form}`{(property.OrElse is { } other ? $", or `{other}`" : "")}.");
}
