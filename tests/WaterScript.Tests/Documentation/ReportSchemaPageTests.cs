using System.Text.Json.Nodes;
using WaterScript.Answers.Advise;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Deployed;
using WaterScript.Answers.Diff;
using WaterScript.Answers.Diff.Folders;
using WaterScript.Answers.Next;
using WaterScript.Answers.Usage;
using WaterScript.Answers.Why;
using WaterScript.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// <c>docs/reports.schema.json</c> is written from the records that answers are written from:
/// <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter ReportSchemaPage</c> writes it, and without that a stale one fails.
/// </summary>
public class ReportSchemaPageTests
{
    private const string Page = "docs/reports.schema.json";

    private static bool IsWriting => Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1";

    [Fact]
    public void The_schema_is_what_the_records_say()
    {
        var schema = Export();
        if (IsWriting) File.WriteAllText(Path.Combine(Repository.Root, Page), schema);
        Assert.Equal(schema, Repository.Read(Page));
    }

    private static string Export() => new SchemaExport(
            "Answers of WaterScript for programs",
            "What `check`, `advise`, `next`, `why`, `diff`, `audit`, `deployed` and `usage` write as JSON. "
                + "Each begins with its own key, whose value is the number of its form.",
            new JsonObject
            {
                ["slug"] = Text("^[a-z][a-z-]*$"),
                ["name"] = new JsonObject { ["description"] = "A name as written in the source.", ["type"] = "string" },
                ["date"] = Text("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "A local date."),
                ["clock"] = Text(
                    "^[0-9]{4}-[0-9]{2}-[0-9]{2}(T[0-9]{2}:[0-9]{2}:[0-9]{2})?$",
                    "A time of the site's clock, or a date where whole days are meant."),
                ["moment"] = Text(
                    @"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}([+-][0-9]{2}:[0-9]{2}(:[0-9]{2})?|Z)$",
                    "Local time with its offset from UTC."),
            })
        .Add(new ReportContext(SchemaExport.Options()).ReportDocument)
        .Add(new AdviceContext(SchemaExport.Options()).AdviceDocument)
        .Add(new OutlookContext(SchemaExport.Options()).OutlookDocument)
        .Add(new DayAnswerContext(SchemaExport.Options()).DayAnswerDocument)
        .Add(new ChangesContext(SchemaExport.Options()).ChangesDocument)
        .Add(new AuditContext(SchemaExport.Options()).AuditDocument)
        .Add(new FolderContext(SchemaExport.Options()).FolderDocument)
        .Add(new DeployedContext(SchemaExport.Options()).DeployedDocument)
        .Add(new UsageContext(SchemaExport.Options()).UsageDocument)
        .ToString();

    private static JsonObject Text(string pattern, string? description = null)
    {
        var text = new JsonObject { ["type"] = "string", ["pattern"] = pattern };
        if (description is not null) text.Insert(0, "description", description);
        return text;
    }
}
