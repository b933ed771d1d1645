using System.Diagnostics;
using WaterScript.Cli;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>A calendar published by CalDAV to a server that others wrote: an item stays as long as its schedule does.</summary>
public sealed class CalDavTests : Workshop
{
    private const string Garden = """
        site garden { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1 }
        zone beds { output 2 }
        schedule morning { every day; start at 06:00; steps { water lawn for 10 min } }
        schedule evening { on mon, fri; start at 20:00; steps { water beds for 10 min } }
        schedule night { every day; start at 01:30; steps { water beds for 10 min } }

        """;

    [SyncFact]
    public void Exactly_the_item_of_a_changed_schedule_changes()
    {
        var renamed = Garden.Replace("schedule morning {", "schedule dawn { formerly morning;", StringComparison.Ordinal);
        var (output, error, status) = Sync(
            Calendar("first", Garden),
            Calendar("same", Garden),
            Calendar("changed", Garden.Replace("start at 20:00", "start at 20:30", StringComparison.Ordinal)),
            Calendar("back", Garden),
            Calendar("renamed", renamed),
            Calendar("without", renamed.Replace("schedule evening", "schedule evening-more", StringComparison.Ordinal)));

        Assert.Equal(("", 0), (status == 0 ? "" : error, status));
        Assert.Equal(
            """
            8 items: 8 new, 0 changed, 0 gone
            8 items: 0 new, 0 changed, 0 gone
            8 items: 0 new, 1 changed, 0 gone
            8 items: 0 new, 1 changed, 0 gone
            8 items: 0 new, 1 changed, 0 gone
            8 items: 1 new, 0 changed, 1 gone

            """.ReplaceLineEndings("\n"),
            output);
    }

    private string Calendar(string name, string text)
    {
        Write("garden.water", text);
        Assert.Equal(ExitCode.Success, RunLine($"compile garden.water --to icalendar -o {name}.ics").ExitCode);
        return PathOf($"{name}.ics");
    }

    private static (string Output, string Error, int Status) Sync(params string[] arguments)
    {
        var start = new ProcessStartInfo(Path.Combine(Repository.Root, "tests", "oracles", "caldav", "sync"), arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        process.WaitForExit();
        return (output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult(), process.ExitCode);
    }

    /// <summary>A test with radicale and vdirsyncer.</summary>
    private sealed class SyncFactAttribute : FactAttribute
    {
        public SyncFactAttribute() => Skip = Reader.Absence;
    }
}
