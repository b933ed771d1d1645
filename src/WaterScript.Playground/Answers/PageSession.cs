using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;

namespace WaterScript.Playground.Answers;

/// <summary>What a page has open, and what it asks about it. Nothing that goes wrong ends it.</summary>
/// <param name="clock">What time it is.</param>
/// <param name="timeZones">Where time zones come from.</param>
internal sealed class PageSession(IClock clock, IDateTimeZoneProvider timeZones)
{
    private OpenSite? _site;

    /// <summary>Answers a question; both are JSON.</summary>
    public string Answer(string question)
    {
        try
        {
            return JsonSerializer.Deserialize(question, PageContext.Default.PageQuestion) is { } asked ? Answer(asked) : Nothing("there is no question");
        }
        catch (JsonException problem)
        {
            return Nothing($"the question cannot be read: {problem.Path}");
        }
        catch (QuestionException problem)
        {
            return Nothing(problem.Message);
        }
        catch (WorkUsedUpException)
        {
            return Nothing("This site needs more work than an answer here may take. The program waterscript has no such limit for it.");
        }
        catch (ChartTooLargeException)
        {
            return Nothing($"There are more than {Limits.ChartRuns} runs on these days, more than a picture can show.");
        }
    }

    private string Answer(PageQuestion asked)
    {
        if (asked.Method == "read") _site = OpenSite.Of(asked, clock.GetCurrentInstant(), timeZones);
        var site = _site ?? throw new QuestionException("nothing has been read");
        return asked.Method switch
        {
            "read" => Written(site.Read(), PageContext.Default.ReadAnswer),
            "check" => Written(site.CheckAnswer(), PageContext.Default.CheckAnswer),
            "chart" => Written(new SiteDays(site).Chart(asked), PageContext.Default.ChartAnswer),
            "timetable" => Written(new SiteDays(site).Timetable(asked), PageContext.Default.TimetableAnswer),
            "document" => Written(SiteDocuments.Of(site, asked), PageContext.Default.DocumentAnswer),
            "hover" => Written(site.Hover(asked), PageContext.Default.HoverAnswer),
            "complete" => Written(site.Complete(asked), PageContext.Default.CompletionAnswer),
            "actions" => Written(site.Actions(asked), PageContext.Default.ActionsAnswer),
            "fix" => Written(site.FixAll(), PageContext.Default.ActionsAnswer),
            "format" => Written(site.Format(asked), PageContext.Default.EditsAnswer),
            _ => throw new QuestionException("there is no such question"),
        };
    }

    private static string Written<T>(T? answer, JsonTypeInfo<T> type)
        where T : class => answer is null ? Nothing(null) : JsonSerializer.Serialize(answer, type);

    private static string Nothing(string? problem) => JsonSerializer.Serialize(new NoAnswer(problem), PageContext.Default.NoAnswer);
}

/// <summary>A question that has no answer, and why, in words.</summary>
internal sealed class QuestionException(string message) : Exception(message);
