using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// What the JSON Schema of a timetable says of properties is written from the schema of the language:
/// <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter TimetableSchemaTests</c> writes it, and without that a stale file fails.
/// </summary>
public class TimetableSchemaTests
{
    [Fact]
    public void The_json_schema_is_what_the_language_says()
    {
        var text = TimetableSchema.Read().Text();
        if (Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1") File.WriteAllText(Path.Combine(Repository.Root, TimetableSchema.Path), text);
        Assert.Equal(text, Repository.Read(TimetableSchema.Path).ReplaceLineEndings("\n"));
    }
}
