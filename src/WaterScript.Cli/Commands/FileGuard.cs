using WaterScript.Cli.Files;

namespace WaterScript.Cli.Commands;

/// <summary>Keeps what goes wrong with one file from ending the command for the others. What a person does wrong with the command itself still ends it.</summary>
/// <param name="terminal">Where it is said.</param>
internal sealed class FileGuard(Terminal terminal)
{
    /// <summary>Whether something went wrong.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>Does something with a file; null, and reported, where that ends in a mistake of the program itself.</summary>
    /// <param name="path">The file of the command line.</param>
    /// <param name="work">What to do.</param>
    public T? Try<T>(string path, Func<T> work)
        where T : class
    {
        try
        {
            return work();
        }
#pragma warning disable CA1031 // Whatever it was, the other files are still to be looked at.
        catch (Exception problem) when (problem is not (CommandException or IOException or UnauthorizedAccessException))
#pragma warning restore CA1031
        {
            HasFailed = true;
            terminal.Error.Write($"waterscript: internal error in {(path == SiteSource.Standard ? path : ShownPath.Of(path))}; please report it with that file: {problem.GetType().Name}\n");
            return null;
        }
    }

    /// <summary>A status, or that the command could not run to its end.</summary>
    public int Or(int status) => HasFailed ? ExitCode.CannotRun : status;
}
