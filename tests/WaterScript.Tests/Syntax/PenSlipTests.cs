using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Syntax.Generated;
using WaterScript.Tests.Binding;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents.Reports;
using WaterScript.Tests.Syntax.Formatting;
using Xunit;
using Xunit.Abstractions;

namespace WaterScript.Tests.Syntax;

/// <summary>
/// Single slips of the pen in the examples: each is one error at most, on the line of the slip, and where a correction is proposed, it is
/// applied literally: the error is gone and no new one is there. Not asked for: a slip in a name where that is given, and a statement that is gone as a whole.
/// </summary>
/// <param name="output">Where it is said how many corrections were tried.</param>
public sealed class PenSlipTests(ITestOutputHelper output)
{
    private const int Seed = 17;
    private static readonly int Slips = Samples.Of(12_000);

    private static readonly (string Text, IReadOnlyList<IToken> Tokens)[] Examples =
    [
        .. Repository.ExampleFiles.Select(Repository.Read).Where(text => Errors(text).Length == 0)
            .Select(text => (text, (IReadOnlyList<IToken>)[.. RawTokens.Of(text).Where(IsOfStatement)])),
    ];

    [Fact]
    public void A_slip_is_one_error_at_its_line()
    {
        var random = new Random(Seed);
        var (failures, corrected) = (new List<string>(), 0);
        for (var number = 0; number < Slips; number++)
        {
            var (text, tokens) = Examples[random.Next(Examples.Length)];
            var slip = PenSlip.In(text, tokens, random);
            if (slip is null || slip.IsInGivenName || slip.Written.AsSpan().Trim().IsEmpty) continue;
            var (fault, isCorrected) = Judge(slip);
            if (fault is not null) failures.Add($"{number}: {slip}: {fault}");
            if (isCorrected) corrected++;
        }

        output.WriteLine($"{corrected} corrections");
        Assert.True(failures.Count == 0, $"{failures.Count} of {Slips}, seed {Seed}:\n{string.Join('\n', failures)}");
    }

    private static bool IsOfStatement(IToken token) => token.Type is not (WaterScriptLexer.COMMENT or WaterScriptLexer.NEWLINE);

    private static (string? Fault, bool IsCorrected) Judge(PenSlip slip)
    {
        var errors = Errors(slip.Text);
        if (errors.Length > 1 && !IsOfBareSteps(errors) && !IsOfGivenQuantity(slip, errors))
            return ($"{errors.Length} errors: {string.Join("; ", errors.Select(Expect.Shown))}", false);
        if (errors.Length != 1) return (null, false);
        var (place, fix) = (errors[0].Primary.Location, errors[0].Fix);
        if (!slip.Lines.Any(line => line >= place.Start.Line && line <= place.End.Line))
            return ($"not at its line {string.Join(", ", slip.Lines)}: {Expect.Shown(errors[0])}", false);
        if (fix is not { Edits: [_, ..] edits }) return (null, false);
        var after = Errors(Applied(slip.Text, fix));
        if (after.Length > 0 && !fix.IsSafe && Checked.Of(slip.Text).Findings.First(finding => finding.Severity == Severity.Error).Fix is null)
            return (null, false); // It was tried, and is not proposed.
        return (after.Length == 0 ? null
            : $"{Expect.Shown(errors[0])}, corrected with \"{edits[0].Replacement}\", gives {string.Join("; ", after.Select(Expect.Shown))}", true);
    }

    /// <summary>The other exception: a <c>let</c> whose unit is another is a good quantity, and wrong in each place that uses it.</summary>
    private static bool IsOfGivenQuantity(PenSlip slip, Finding[] errors) =>
        slip.Written.TrimStart().StartsWith("let ", StringComparison.Ordinal) && errors.All(error => error.Rule.Slug == "wrong-unit");

    /// <summary>
    /// One exception: in braces that lost their <c>steps</c>, a <c>repeat 2 times</c> is read as what a schedule says, and is an error too.
    /// </summary>
    private static bool IsOfBareSteps(Finding[] errors) =>
        errors is [var braces, var inside] && braces.Heading.StartsWith("braces without a statement", StringComparison.Ordinal)
            && inside.Primary.Location.Start.Line > braces.Primary.Location.Start.Line;

    private static Finding[] Errors(string text) => Expect.Errors(Expect.Read(text));

    private static string Applied(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.Reverse())
            text = text.Remove(edit.Location.Span.Start, edit.Location.Span.Length).Insert(edit.Location.Span.Start, edit.Replacement);
        return text;
    }
}
