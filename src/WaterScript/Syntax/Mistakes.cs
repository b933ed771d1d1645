using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Words the mistakes of a file and collects them.</summary>
internal sealed class Mistakes(SourceText source)
{
    private readonly List<Finding> _findings = [];

    /// <summary>Adds a finding.</summary>
    public void Add(Finding finding) => _findings.Add(finding);

    /// <summary>A statement that begins with no word known at its place.</summary>
    public void UnknownStatement(Token first, Place place) =>
        Add(Finding.At(Rules.Syntax, At(first.Span), $"\"{first.Text}\" begins no statement here"));

    /// <summary>Something after the end of a statement.</summary>
    public void Leftover(Token token) =>
        Add(Finding.At(Rules.Syntax, At(token.Span), $"\"{token.Text}\" does not belong here"));

    /// <summary>Hands over what was found, in order of place.</summary>
    public void HandOver(FindingList findings) => findings.AddRange(_findings.OrderBy(finding => finding.Primary.Location.Span.Start));

    private Location At(TextSpan span) => new(source, span);
}
