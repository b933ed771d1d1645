using System.Diagnostics;
using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>A process that tries mutants, from outside.</summary>
internal sealed class JudgeProcess : IDisposable
{
    /// <summary>A judge stops a test that takes too long by itself; one that is silent for longer than this, in minutes, is stopped from here.</summary>
    private const int LongestSilence = 15;

    /// <summary>Memory that a mutant may fill: 4 GB, as the runtime reads it.</summary>
    private const string MostMemory = "0x100000000";

    private readonly Process _process;

    private JudgeProcess(Process process) => _process = process;

    /// <summary>Starts one.</summary>
    /// <param name="tests">The assembly of the tests.</param>
    /// <param name="library">The mutated library.</param>
    /// <param name="count">How many mutants there are.</param>
    /// <param name="keys">The file that tells tests from one another.</param>
    public static JudgeProcess Start(string tests, string library, int count, string keys)
    {
        string[] words = [typeof(JudgeProcess).Assembly.Location, Program.JudgeWord, tests, library, count.ToString(CultureInfo.InvariantCulture), keys];
        var start = new ProcessStartInfo("dotnet", words) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory;
        return new JudgeProcess(Process.Start(start)!);
    }

    /// <summary>The answer to a question; null where the process has ended.</summary>
    public string? Ask(string question)
    {
        try
        {
            _process.StandardInput.WriteLine(question);
            _process.StandardInput.Flush();
            var answer = _process.StandardOutput.ReadLineAsync();
            return answer.Wait(TimeSpan.FromMinutes(LongestSilence)) ? answer.Result : null;
        }
        catch (IOException)
        {
            return null;
        }
    }

    public void Dispose()
    {
        if (!_process.HasExited) _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }
}
