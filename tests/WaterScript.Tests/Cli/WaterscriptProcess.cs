using System.Diagnostics;

namespace WaterScript.Tests.Cli;

/// <summary>Runs the program as a process of its own: the one that <c>WATERSCRIPT_BINARY</c> names, else the one built beside the tests.</summary>
internal static class WaterscriptProcess
{
    private const string Name = "waterscript";

    /// <summary>After so long a command counts as one that does not end.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    /// <summary>Whether a program is named, so that it and no other is under test.</summary>
    public static bool IsNamed { get; } = Environment.GetEnvironmentVariable("WATERSCRIPT_BINARY") is { Length: > 0 };

    /// <summary>The program.</summary>
    public static string Path { get; } = Environment.GetEnvironmentVariable("WATERSCRIPT_BINARY") is { Length: > 0 } named
        ? System.IO.Path.GetFullPath(named)
        : System.IO.Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? Name + ".exe" : Name);

    /// <summary>Runs it in a folder.</summary>
    public static Result Run(string folder, params string[] arguments) => Run(folder, [], [], arguments);

    /// <summary>Runs it in a folder with some bytes on standard input and some variables of the environment.</summary>
    public static Result Run(string folder, byte[] input, IEnumerable<(string Name, string Value)> environment, params string[] arguments) =>
        Start(Path, folder, input, environment, arguments);

    /// <summary>Runs a line of a POSIX shell, in which <c>$WATERSCRIPT</c> is the program.</summary>
    public static Result Shell(string folder, string line) => Start("/bin/sh", folder, [], [("WATERSCRIPT", Path)], ["-c", line]);

    /// <summary>Runs any program.</summary>
    public static Result Start(string program, string folder, byte[] input, IEnumerable<(string Name, string Value)> environment, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var (name, value) in environment) start.Environment[name] = value;
        using var process = Process.Start(start)!;
        using var deadline = new CancellationTokenSource(Patience);
        var output = process.StandardOutput.ReadToEndAsync(deadline.Token);
        var error = process.StandardError.ReadToEndAsync(deadline.Token);
        process.StandardInput.BaseStream.Write(input);
        process.StandardInput.Close();
        var result = new Result(output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult(), 0);
        process.WaitForExit();
        return result with { ExitCode = process.ExitCode };
    }

    /// <summary>What a run printed.</summary>
    /// <param name="Output">On standard output.</param>
    /// <param name="Error">On standard error.</param>
    /// <param name="ExitCode">What it handed back.</param>
    internal sealed record Result(string Output, string Error, int ExitCode);
}
