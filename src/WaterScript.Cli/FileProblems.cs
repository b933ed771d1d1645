using WaterScript.Cli.Files;

namespace WaterScript.Cli;

/// <summary>
/// What went wrong with single files while a command goes on with the others. Each is reported at once, and the command has not done all that it was
/// asked.
/// </summary>
/// <param name="terminal">Where it is reported.</param>
internal sealed class FileProblems(Terminal terminal)
{
    /// <summary>Whether there is any.</summary>
    public bool IsAny { get; private set; }

    /// <summary>Reports one.</summary>
    /// <param name="why">A sentence without a full stop.</param>
    public void Report(string why)
    {
        IsAny = true;
        terminal.Text.Flush();
        terminal.Error.Line($"{CommandLine.Program}: {why}");
    }

    /// <summary>Does something with a file; null, and reported, where that cannot be done or the program itself fails on it.</summary>
    /// <param name="path">The file, as the command line gives it.</param>
    /// <param name="work">What to do.</param>
    public T? Try<T>(string path, Func<T> work)
        where T : class
    {
        try
        {
            return work();
        }
        catch (CommandException problem)
        {
            Report(problem.Message);
        }
#pragma warning disable CA1031 // Whatever it was, the other files are still to be looked at; that nobody reads the output any more ends all.
        catch (Exception problem) when (problem is not (IOException or UnauthorizedAccessException))
#pragma warning restore CA1031
        {
            var shown = path == SiteSource.Standard ? path : terminal.Surroundings.Shown(path);
            Report($"internal error in {shown}; please report it with that file: {problem.GetType().Name}");
        }

        return null;
    }

    /// <summary>The status of a command that would hand back another, had all gone well.</summary>
    public int StatusOr(int status) => IsAny ? ExitCode.CannotRun : status;
}
