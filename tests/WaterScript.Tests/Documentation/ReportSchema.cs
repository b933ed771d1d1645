using System.Text.Json;
using Json.Schema;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>Compares answers for programs with <c>docs/reports.schema.json</c>, which refuses what it does not know.</summary>
internal static class ReportSchema
{
    private const string Begin = "{\n  \"waterscript_";
    private static readonly JsonSchema Schema = JsonSchema.FromText(Repository.Read("docs/reports.schema.json"));

    /// <summary>Whether a text is such an answer.</summary>
    public static bool IsOf(string text) => text.StartsWith(Begin, StringComparison.Ordinal);

    /// <summary>Whether an answer is as the schema says.</summary>
    public static bool Allows(string json) => Evaluate(json, OutputFormat.Flag).IsValid;

    /// <summary>Fails where an answer is not as the schema says, with the places.</summary>
    public static void Hold(string json)
    {
        if (Allows(json)) return;
        var results = Evaluate(json, OutputFormat.List);
        var key = json[Begin.Length..json.IndexOf("\":", StringComparison.Ordinal)];
        var kind = $"/oneOf/{Array.IndexOf(["report", "advice", "next", "why", "diff", "audit", "diff_folder", "deployed", "usage"], key)}";
        var errors = results.Details!.Where(detail => detail.Errors is not null && detail.EvaluationPath.ToString().StartsWith(kind, StringComparison.Ordinal));
        Assert.Fail(string.Join('\n', errors.SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}")).Take(20)));
    }

    /// <summary>A flag is found much sooner than the places of what is wrong.</summary>
    private static EvaluationResults Evaluate(string json, OutputFormat format)
    {
        using var document = JsonDocument.Parse(json);
        return Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = format });
    }
}
