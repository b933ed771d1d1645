using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>Words that were given up for those of the trade stand nowhere any more, nor do words that are not plain English here.</summary>
public sealed class WordsLeftBehindTests
{
    /// <summary>This file has them all.</summary>
    private static readonly string[] Exempt = ["tests/WaterScript.Tests/Documentation/WordsLeftBehindTests.cs"];

    private static readonly string[] Folders = ["docs", "examples", "grammar", "src", "tests/Cases", "tests/WaterScript.Tests", "tests/WaterScript.Fuzz"];

    public static TheoryData<string> Patterns =>
    [
        @"works[-_]from|moves[-_]in\b|stays[-_]on[-_]through|made-ground|\bvessel \d|\bheads (drip|spray|rotor|bubbler|mist)\b",
        @"(?<![-\w])change (gap|overlap)\b|\bcatches \d|(?<!allowed-)\bdepletion \d|\bspacing \d|\bstore \d",
        "store-too-small|pulse-too-soon|motor-starts|wire-drop|holding-over|inrush-over|pump-alone|injector-alone|runs-off|soak-cut|too-long-dry",
        "too-many-at-once|too-deep-a-day|too-long-a-day|too-many-days|never-watered|cannot-close-all|change-too-close|night-too-short|same-moment",
        "days-in-a-row|output-missing|looks-like-wrong-unit|accept-unused|accept hammer|skip,rain",
    ];

    /// <summary>Words that a native practitioner would not write here, in names too.</summary>
    [Fact]
    public void No_word_that_reads_as_translated_is_left() =>
        Assert.Empty(Left(@"(?<![A-Za-z])(reckon\w*|mend(s|ed|ing)?|told|wants|(is|are)[ _]wanted|[Ww]ays?[ _]out|held[ _]against)(?![A-Za-z])", Folders));

    [Theory]
    [MemberData(nameof(Patterns))]
    public void No_word_that_was_given_up_is_left(string pattern) => Assert.Empty(Left(pattern, Folders));

    private static IEnumerable<string> Left(string pattern, IEnumerable<string> folders) =>
        folders.SelectMany(Repository.FilesUnder).Where(IsText).Concat(Repository.Pages).Distinct().Except(Exempt)
            .SelectMany(path => Repository.Read(path).Split('\n').Select((line, index) => (Place: $"{path}:{index + 1}", Line: line)))
            .Where(line => Regex.IsMatch(line.Line, pattern, RegexOptions.CultureInvariant, TimeSpan.FromSeconds(1)))
            .Select(line => $"{line.Place}: {line.Line.Trim()}");

    private static bool IsText(string path) =>
        Path.GetExtension(path) is ".cs" or ".md" or ".water" or ".g4" or ".json" or ".findings" or ".sh" or ".c" or ".h";
}
