using System.CommandLine;

namespace WaterScript.Cli.Commands;

/// <summary>The form that <c>--report</c> asks for.</summary>
internal enum ReportForm
{
    /// <summary>For people.</summary>
    Text,

    /// <summary>For people, on a page that shows Markdown.</summary>
    Markdown,

    /// <summary>For programs.</summary>
    Json,

    /// <summary>For tools that show findings in code (SARIF 2.1.0).</summary>
    Sarif,

    /// <summary>For a log of GitHub Actions.</summary>
    Github,

    /// <summary>For a spreadsheet.</summary>
    Csv,
}

/// <summary>The option <c>--report</c>.</summary>
internal static class ReportOption
{
    private const string Description = "Form of the report. Default: text, for people.";

    /// <summary>That of a check.</summary>
    public static Option<ReportForm?> OfFindings() => OptionValues.Choice(
        "--report", Description, ("text", ReportForm.Text), ("json", ReportForm.Json), ("sarif", ReportForm.Sarif), ("github", ReportForm.Github));

    /// <summary>That of an answer to one question.</summary>
    public static Option<ReportForm?> TextOrJson() =>
        OptionValues.Choice("--report", Description, ("text", ReportForm.Text), ("json", ReportForm.Json));

    /// <summary>That of an answer which is a table.</summary>
    public static Option<ReportForm?> OfTable() => OptionValues.Choice("--report", Description,
        ("text", ReportForm.Text), ("markdown", ReportForm.Markdown), ("json", ReportForm.Json), ("csv", ReportForm.Csv));

    /// <summary>That of an answer.</summary>
    public static Option<ReportForm?> OfAnswer() => OptionValues.Choice(
        "--report", Description, ("text", ReportForm.Text), ("markdown", ReportForm.Markdown), ("json", ReportForm.Json));
}
