using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Tests.Cases;

/// <summary>
/// The tree of a source, a node a line, each below the one that it belongs to; the tokens of a row stand in its line. Findings of reading follow.
/// </summary>
internal static class TreeText
{
    /// <summary>Parses a source.</summary>
    public static string Of(SourceText source)
    {
        var findings = new FindingList();
        var file = Parser.Parse(source, findings);
        var text = new StringBuilder();
        foreach (var statement in file.Statements) Append(text, source, "", statement, 0);
        foreach (var comment in file.Comments) text.Append("comment ").Append(Quoted(source, comment)).Append('\n');
        foreach (var finding in findings)
        {
            var start = finding.Primary.Location.Start;
            text.Append(CultureInfo.InvariantCulture,
                $"{finding.Severity.ToString().ToLowerInvariant()} {start.Line}:{start.Column} {finding.Heading} [{finding.Rule.Slug}]\n");
        }

        return text.ToString();
    }

    private static void Append(StringBuilder text, SourceText source, string role, object value, int depth)
    {
        switch (value)
        {
            case RowNode row:
                Line(text, depth, role, $"Row {string.Join(' ', row.Tokens.Select(token => $"{token.Kind}:{Quoted(source, token.Span)}"))}");
                break;
            case Token token:
                Line(text, depth, role, $"{token.Kind}:{Quoted(source, token.Span)}");
                break;
            case Node node:
                var (plain, parts) = MembersOf(node);
                Line(text, depth, role, string.Join(' ',
                    plain.Prepend($"{node.GetType().Name.Replace("Node", "", StringComparison.Ordinal)} {Quoted(source, node.Span)}")));
                foreach (var (name, part) in parts) Append(text, source, name, part, depth + 1);
                break;
            case IEnumerable many:
                foreach (var each in many) Append(text, source, role, each, depth);
                break;
        }
    }

    /// <summary>What a node holds: plain values, and what has a place of its own.</summary>
    private static (List<string> Plain, List<(string Name, object Part)> Parts) MembersOf(Node node)
    {
        var (plain, parts) = (new List<string>(), new List<(string, object)>());
        foreach (var property in node.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(property => property.GetIndexParameters().Length == 0))
        {
            switch (property.GetValue(node))
            {
                case null or TextSpan or SourceText:
                    break;
                case string or bool or Enum or IFormattable and (int or long or decimal):
                    plain.Add(string.Create(CultureInfo.InvariantCulture, $"{property.Name}={property.GetValue(node)}"));
                    break;
                case { } part:
                    parts.Add((property.Name, part));
                    break;
            }
        }

        return (plain, parts);
    }

    private static void Line(StringBuilder text, int depth, string role, string words) =>
        text.Append(' ', 2 * depth).Append(role).Append(role.Length > 0 ? ": " : "").Append(words).Append('\n');

    /// <summary>The first line of a place, cut where it is long.</summary>
    private static string Quoted(SourceText source, TextSpan span)
    {
        const int Most = 40;
        var written = source.Text.AsSpan(span.Start, span.Length);
        var end = written.IndexOfAny('\r', '\n');
        var line = (end < 0 ? written : written[..end]).ToString();
        var isCut = end >= 0 || line.Length > Most;
        return $"`{(line.Length > Most ? line[..Most] : line)}{(isCut ? "…" : "")}`";
    }
}