using System.Diagnostics;

namespace WaterScript.Mutation.Driving;

/// <summary>Programs that are run until they end.</summary>
internal static class Commands
{
    /// <summary>What a program prints; one that fails is an error with all it printed.</summary>
    public static string Ask(string folder, string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true };
        // A server of the compiler would stay behind.
        start.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        start.Environment["UseSharedCompilation"] = "false";
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? output : throw new InvalidOperationException($"{program} fails:\n{output}");
    }
}
