using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using WaterScript.Timetables;

namespace WaterScript.Tests.Oracles;

/// <summary>The ways in which a timetable becomes a calendar.</summary>
internal enum Form
{
    /// <summary>Series, one occurrence a pass.</summary>
    Passes,

    /// <summary>Single events, one a pass.</summary>
    PassesFlat,

    /// <summary>Series, one occurrence a watering of a zone.</summary>
    Steps,

    /// <summary>Series, one occurrence a schedule and day.</summary>
    Days,
}

/// <summary>A calendar as the command line writes it, and what it has to expand to.</summary>
internal static class EmittedCalendar
{
    /// <summary>The bytes of a site's calendar over a horizon.</summary>
    /// <param name="file">Its path, or <c>-</c>.</param>
    /// <param name="text">What is then read.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="form">As what.</param>
    public static byte[] Of(string file, string text, Horizon horizon, Form form)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter(CultureInfo.InvariantCulture);
        var terminal = new Terminal(Surroundings.OfProcess(), () =>
            new MemoryStream(Encoding.UTF8.GetBytes(text)), output, TextWriter.Null, error, textHasColour: false, errorHasColour: false);
        var status = CommandLine.Run(
            ["compile", file, "--to", "icalendar", "--from", Iso(horizon.From), "--until", Iso(horizon.Until),
                "--despite-errors", "--despite-size", "--no-end-notice", "--title", "{label}",
                .. Options(form)],
            terminal);
        return status != ExitCode.CannotRun && output.Length > 0 ? output.ToArray() : throw new InvalidOperationException($"{file} {form}: {error}\n{text}");
    }

    /// <summary>What every reader has to find in it.</summary>
    public static string[] Expected(Timetable timetable, Form form) => form switch
    {
        Form.Steps => ExpectedEvents.Steps(timetable),
        Form.Days => ExpectedEvents.Days(timetable),
        _ => ExpectedEvents.Passes(timetable),
    };

    private static string[] Options(Form form) => form switch
    {
        Form.PassesFlat => ["--events", "pass", "--flat"],
        Form.Steps => ["--events", "step"],
        Form.Days => ["--events", "day"],
        _ => ["--events", "pass"],
    };

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
