using System.Diagnostics;
using WaterScript.Tests.Documentation;
using WaterScript.Timetables;

namespace WaterScript.Tests.Oracles;

/// <summary>A reader of iCalendar that others wrote, in a folder under <c>tests/oracles</c>; its README says what each relies on.</summary>
internal sealed class Reader
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    private Reader(string name) => Name = name;

    public static IReadOnlyList<Reader> All { get; } =
    [
        new("ical.js"),
        new("icalendar"),
        new("libical"),
        new("recurring-ical-events"),
        new("sabre-vobject"),
        new("node-ical"),
        new("kcalendarcore"),
    ];

    public string Name { get; }

    /// <summary>
    /// Whether it can be right about a timetable. libical takes the clock changes over which a rule steps from the system's data whatever the file says, and of
    /// these reads only what comes before a change that ended summer time for good, as in Paraguay in 2024.
    /// </summary>
    public bool MayJudge(Timetable timetable) => Name switch
    {
        "ical.js" or "icalendar" => true,
        "libical" => timetable.Site.TimeZone.Id != "America/Asuncion" && SystemZones.Agree(timetable.Site.TimeZone, timetable.Horizon),
        _ => SystemZones.Agree(timetable.Site.TimeZone, timetable.Horizon),
    };

    /// <summary>Why tests with readers are skipped; null where they run.</summary>
    public static string? Absence { get; } = Outside.Lacks("WATERSCRIPT_ORACLES", "tests/oracles/install");

    public static Reader Named(string name) => All.Single(reader => reader.Name == name);

    /// <summary>What it finds in each file, in one start of the process.</summary>
    public IReadOnlyList<Answer> Expand(IReadOnlyCollection<Question> questions)
    {
        var (output, error, _) = Run(string.Concat(questions.Select(question => question.Line)), "-");
        var answers = new List<Answer>();
        var occurrences = new List<string>();
        foreach (var line in output.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line is not ("end" or "refused"))
                occurrences.Add(line);
            else
            {
                answers.Add(new Answer(line == "refused", [.. occurrences]));
                occurrences.Clear();
            }
        }

        return answers.Count == questions.Count && occurrences.Count == 0
            ? answers
            : throw new InvalidOperationException($"{Name} answered {answers.Count} of {questions.Count} questions\n{error}");
    }

    /// <summary>What it prints about one file, and its status.</summary>
    public (string Output, string Error, int Status) ExpandOne(Question question) => Run("", question.File, question.From, question.Until);

    private (string Output, string Error, int Status) Run(string input, params string[] arguments)
    {
        var start = new ProcessStartInfo(Path.Combine(Repository.Root, "tests", "oracles", Name, "expand"), arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        using var deadline = new CancellationTokenSource(Patience);
        using var stop = deadline.Token.Register(process.Kill);
        var output = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        var error = process.StandardError.ReadToEndAsync(CancellationToken.None);
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        process.WaitForExit();
        return (output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult(), process.ExitCode);
    }

    /// <summary>A file and the span in which occurrences start, as instants such as <c>2026-04-01T00:00:00Z</c>.</summary>
    internal sealed record Question(string File, string From, string Until)
    {
        public string Line => $"{File}\t{From}\t{Until}\n";
    }

    /// <summary>The lines of a file's occurrences, unless it was refused.</summary>
    internal sealed record Answer(bool IsRefused, string[] Occurrences);
}
