using System.Text.Json;
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
            return AnswerWriter.Of(Answer(QuestionReader.Read(question)) ?? new NoAnswer(null));
        }
        catch (JsonException)
        {
            return Nothing("the question cannot be read");
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

    private IPageAnswer? Answer(PageQuestion asked)
    {
        if (asked.Method == "open") _site = OpenSite.Of(asked, clock.GetCurrentInstant(), timeZones);
        var site = _site ?? throw new QuestionException("nothing is open");
        return asked.Method switch
        {
            "open" => null,
            "read" => site.Read(),
            "check" => site.CheckAnswer(),
            "chart" => new SiteDays(site).Chart(asked),
            "timetable" => new SiteDays(site).Timetable(asked),
            "document" => SiteDocuments.Of(site, asked),
            "hover" => site.Hover(asked),
            "complete" => site.Complete(asked),
            "actions" => site.Actions(asked),
            "fix" => site.FixAll(),
            "format" => site.Format(asked),
            _ => throw new QuestionException("there is no such question"),
        };
    }

    private static string Nothing(string problem) => AnswerWriter.Of(new NoAnswer(problem));
}

/// <summary>A question that has no answer, and why, in words.</summary>
internal sealed class QuestionException(string message) : Exception(message);
