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
}
