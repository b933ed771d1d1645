using System.Collections;
using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Syntax;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>
/// No statement is parsed and then forgotten: without it, the model or what is found is another. Of a site without an error each statement
/// is taken out by itself, whatever depth it stands at, and the whole model compared, but for places in the text.
/// </summary>
public sealed class StatementsBoundTests
{
    private const int MostDepth = 40;

    private static readonly string[] Texts =
    [
        .. Repository.ExampleFiles.Select(Repository.Read)
            .Concat(FencedBlock.InPages("water").GroupBy(block => block.Page).SelectMany(page => Snippet.Of([.. page])).Select(snippet => snippet.Text))
            .Distinct(StringComparer.Ordinal),
    ];

    [Fact]
    public void Without_a_statement_a_site_is_another()
    {
        var compared = 0;
        foreach (var text in Texts)
        {
            var reading = Expect.Read(text);
            if (reading.Findings.HasErrors) continue;
            var whole = Shown(reading);
            Assert.Equal(whole, Shown(Expect.Read(text)));
            foreach (var statement in Samples.Some([.. All(reading.Files[0].Statements)], compared))
            {
                var (start, length) = (statement.Span.Start, statement.Span.Length);
                var said = text.Substring(start, length);
                if (Restates(statement, said)) continue;
                var without = text.Remove(start, length).Insert(start, new string(' ', length));
                Assert.True(whole != Shown(Expect.Read(without)), $"the site is the same without: {said}\n{text}");
                compared++;
            }
        }

        Assert.InRange(compared, Samples.Of(1_000), int.MaxValue);
    }

    /// <summary>Whether a statement says what holds anyway, so that nothing can change without it: the one supply, the share of a month not listed.</summary>
    private static bool Restates(Node node, string said) => node is PropertyNode { Name.Text: "supply" } || said is "jun 100 %" or "jul 100 %";

    private static IEnumerable<Node> All(IEnumerable<Node> nodes) => nodes.SelectMany(node => All(Inside(node)).Prepend(node));

    private static IEnumerable<Node> Inside(Node node) => node switch
    {
        BlockNode block => block.Body,
        ScheduleNode schedule => schedule.Body,
        RestrictionNode restriction => restriction.Body,
        SequenceNode sequence => [.. sequence.Steps, .. sequence.Accepts],
        ExtraNode extra => extra.Steps,
        StepsNode steps => steps.Steps,
        RepeatStepsNode repeat => repeat.Steps,
        CycleNode cycle => cycle.Steps,
        TogetherNode together => together.Waters,
        _ => [],
    };

    private static string Shown(SiteReading reading)
    {
        var text = new StringBuilder();
        foreach (var finding in reading.Findings) text.Append(CultureInfo.InvariantCulture,
            $"{finding.Rule.Slug} {finding.Heading} {finding.Primary.Location.Start}\n");
        Show(reading.Site, text, 0);
        return text.ToString();
    }

    /// <summary>All that a value holds but for places in the text.</summary>
    private static void Show(object? value, StringBuilder text, int depth)
    {
        Assert.InRange(depth, 0, MostDepth);
        switch (value)
        {
            case null or Location or SourceText:
                break;
            case string or IFormattable or bool or Enum or DateTimeZone:
                text.Append(CultureInfo.InvariantCulture, $"{value} ");
                break;
            case IEnumerable items:
                foreach (var item in items) Show(item, text, depth + 1);
                text.Append("; ");
                break;
            default:
                text.Append(value.GetType().Name).Append(' ');
                foreach (var property in value.GetType().GetProperties()
                    .Where(property => property.GetIndexParameters().Length == 0 && property.GetMethod is { IsStatic: false }))
                    Show(property.GetValue(value), text.Append(property.Name).Append(' '), depth + 1);
                break;
        }
    }
}
