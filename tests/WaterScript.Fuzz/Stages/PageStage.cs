using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using WaterScript.Documents.Reports;
using WaterScript.Playground.Answers;

namespace WaterScript.Fuzz.Stages;

/// <summary>What the playground answers, to all that its page asks, at places anywhere in the text.</summary>
internal sealed class PageStage : IStage
{
    /// <summary>It checks the site a second time, so few of the inputs have to do.</summary>
    private const int SaltsWithPage = 2;

    private const int Places = 5;

    private static readonly Instant Now = Instant.FromUtc(2027, 5, 3, 10, 0);

    public string Name => "page";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Salt >= SaltsWithPage) return false;
        var files = site.Reading.Files.DistinctBy(file => file.Source.Path).ToDictionary(file => file.Source.Path, file => file.Source.Text);
        var (session, root) = (new PageSession(new StoppedClock(), DateTimeZoneProviders.Tzdb), site.Files.Root);
        if (Ask(session, new PageQuestion { Method = "open", Root = root, Files = files }).GetProperty("problem").ValueKind != JsonValueKind.Null) return false;
        var read = Ask(session, new PageQuestion { Method = "read" });
        foreach (var (path, colours) in read.GetProperty("colours").EnumerateObject().Select(each => (each.Name, each.Value)))
            Must.Hold(AreInOrder([.. colours.EnumerateArray().Select(number => number.GetInt32())], files[path].Length), "colours are in order, in the text");
        var check = Ask(session, new PageQuestion { Method = "check" });
        Compare(site, files, check, Ask(session, new PageQuestion { Method = "document", Format = "report" }));
        foreach (var format in new[] { "icalendar", "csv", "yaml" }) Ask(session, new PageQuestion { Method = "document", Format = format });
        Ask(session, new PageQuestion { Method = "timetable", Days = 3 });
        Ask(session, new PageQuestion { Method = "chart" });
        foreach (var (path, text) in files) AskAt(session, path, text);
        return true;
    }

    /// <summary>
    /// The same findings as those of a check, where no letter was lost on the way to a text; and what is offered changes places that are there.
    /// </summary>
    private static void Compare(SiteInHand site, Dictionary<string, string> files, JsonElement check, JsonElement reported)
    {
        if (site.Undecoded.Count == 0 && site.Checked.Path == site.Files.Root)
        {
            var report = CheckStage.IsJson(stream => JsonReport.Write([site.Checked], showsAccepted: false, stream), "the report in JSON is JSON");
            Must.Equal(report, reported.GetProperty("text").GetString(), "the page reports what a check reports");
        }

        foreach (var finding in check.GetProperty("findings").EnumerateArray())
        {
            Must.Hold(IsIn(files, finding.GetProperty("place")), "a finding of the page is in its text");
            foreach (var action in finding.GetProperty("actions").EnumerateArray())
                Must.Hold(action.GetProperty("edits").EnumerateArray().All(edit => IsIn(files, edit)), "what the page offers changes a text that is there");
        }
    }

    private static void AskAt(PageSession session, string path, string text)
    {
        for (var i = 0; i <= Places; i++)
        {
            var (from, to) = ((int)((long)text.Length * i / Places), (int)((long)text.Length * (i + 1) / Places));
            foreach (var method in new[] { "hover", "complete", "actions" })
                Ask(session, new PageQuestion { Method = method, File = path, From = from, To = to });
        }

        Ask(session, new PageQuestion { Method = "format", File = path });
    }

    private static JsonElement Ask(PageSession session, PageQuestion question)
    {
        var answer = session.Answer(JsonSerializer.Serialize(question, QuestionContext.Default.PageQuestion));
        using var document = JsonDocument.Parse(answer);
        return document.RootElement.Clone();
    }

    private static bool IsIn(Dictionary<string, string> files, JsonElement place) =>
        files.TryGetValue(place.GetProperty("file").GetString()!, out var text)
        && place.GetProperty("from").GetInt32() is >= 0 and var from && place.GetProperty("to").GetInt32() is var to && from <= to && to <= text.Length;

    private static bool AreInOrder(int[] colours, int length)
    {
        var last = 0;
        for (var i = 0; i + 3 < colours.Length; i += 4)
        {
            if (colours[i] < last || colours[i + 1] < 1) return false;
            last = colours[i] + colours[i + 1];
        }

        return last <= length;
    }

    /// <summary>What time it is does not depend on when it is asked.</summary>
    private sealed class StoppedClock : IClock
    {
        public Instant GetCurrentInstant() => Now;
    }
}

/// <summary>Writes questions, by another library than the one that reads them.</summary>
[JsonSerializable(typeof(PageQuestion))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
internal sealed partial class QuestionContext : JsonSerializerContext;
