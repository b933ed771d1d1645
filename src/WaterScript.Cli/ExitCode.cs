namespace WaterScript.Cli;

/// <summary>What a command hands back to the shell.</summary>
internal static class ExitCode
{
    /// <summary>No error in the file.</summary>
    public const int Success = 0;

    /// <summary>An error in the file; with <c>--strict</c> a warning too.</summary>
    public const int Findings = 1;

    /// <summary>The command could not run: usage, a file that is not there, an output that cannot be written.</summary>
    public const int CannotRun = 2;

    /// <summary>Whoever read the output has seen enough: 128 and the number of SIGPIPE, as a shell says of a program that this signal ends.</summary>
    public const int ReaderGone = 141;
}
