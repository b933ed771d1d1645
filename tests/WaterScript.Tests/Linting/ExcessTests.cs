using System.Globalization;
using System.Text.RegularExpressions;
using WaterScript.Diagnostics;
using WaterScript.Tests.Cases;
using WaterScript.Tests.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>
/// By how much a limit is exceeded, which a baseline goes by: the difference of the two numbers that the heading gives, in the unit in which it is counted,
/// as near as they are printed.
/// </summary>
public partial class ExcessTests
{
    public static TheoryData<string, int> Rules => new()
    {
        { "autonomy-too-short", 2 }, { "capacitor-too-small", 2 }, { "daily-depth-limit", 2 }, { "daily-volume", 2 }, { "flow-over-pump", 3 },
        { "flow-over-supply", 4 }, { "flow-under-minimum", 3 }, { "holding-current", 2 }, { "inrush-current", 3 }, { "pump-starts", 2 },
        { "too-many-zones", 2 }, { "valves-left-open", 2 }, { "voltage-drop", 3 }, { "watering-days-limit", 2 }, { "zones-at-a-time", 2 },
    };

    /// <summary>What is found in all cases of rules, by rule.</summary>
    private static readonly Lazy<ILookup<string, (string Case, Finding Finding)>> Found = new(() => CaseFile.Of("rules").Cast<object[]>()
        .Select(row => (string)row[0])
        .SelectMany(name => Checked.Of(CaseFile.Source(name).Text).Findings.Where(finding => finding.Excess is not null).Select(finding => (name, finding)))
        .ToLookup(found => found.finding.Rule.Slug));

    [Theory]
    [MemberData(nameof(Rules))]
    public void It_is_the_difference_of_the_numbers_of_the_heading(string rule, int least)
    {
        var seen = Found.Value[rule].ToList();
        Assert.True(seen.Count >= least, $"only {seen.Count} were looked at");
        Assert.All(seen, found => Hold(found.Case, found.Finding));
    }

    private static void Hold(string name, Finding finding)
    {
        var numbers = Number().Matches(finding.Heading);
        var (first, last) = (numbers[^2], numbers[^1]);
        var unit = UnitOf(finding);
        var expected = Math.Abs(Parse(first) - Parse(last)) * unit;
        var near = (StepOf(first) + StepOf(last)) / 2 * unit;
        Assert.True(Math.Abs(finding.Excess!.Value - expected) <= near, $"{name}: {finding.Heading}: {finding.Excess}");
    }

    /// <summary>Watt hours are counted in joules, thousandths of an ampere in amperes, flows in litres a minute.</summary>
    private static decimal UnitOf(Finding finding) => finding.Heading switch
    {
        var words when words.Contains(" Wh", StringComparison.Ordinal) => 3600,
        var words when words.Contains(" mA", StringComparison.Ordinal) => 0.001m,
        var words when words.Contains(" L/h", StringComparison.Ordinal) => 1m / 60,
        _ => 1,
    };

    private static decimal Parse(Match number) => decimal.Parse(number.Value, CultureInfo.InvariantCulture);

    private static decimal StepOf(Match number) => number.Value.Split('.') is [_, { Length: var digits }] ? (decimal)Math.Pow(10, -digits) : 1;

    [GeneratedRegex("[0-9]+([.][0-9]+)?")]
    private static partial Regex Number();
}
