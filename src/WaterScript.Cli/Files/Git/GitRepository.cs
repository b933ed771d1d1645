using System.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>A repository whose files are in a folder, or a submodule of one.</summary>
/// <param name="git">The program.</param>
/// <param name="top">The folder, absolute.</param>
/// <param name="prefix">The path from there to the folder that was asked, with a slash at its end; empty for the top itself.</param>
internal sealed class GitRepository(GitProgram git, string top, string prefix)
{
    /// <summary>More than any answer that is a line: a path, or the name of an object.</summary>
    private const int MostLineBytes = 1 << 16;

    /// <summary>More than the list of all files of any repository that has schedules.</summary>
    private const int MostListBytes = 1 << 28;

    private const string Nowhere = "fatal: not a git repository";
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>The folder that its files are in, absolute.</summary>
    public string Top => top;

    /// <summary>The path from its top to the folder that was asked, with a slash at its end.</summary>
    public string Prefix => prefix;

    /// <summary>The one that a folder lies in.</summary>
    /// <param name="asked">What asks for it, as the command line names it.</param>
    /// <param name="surroundings">The folder.</param>
    /// <exception cref="CommandException">There is no git, or it reads no repository here: why, and what to do.</exception>
    public static GitRepository At(string asked, Surroundings surroundings)
    {
        var git = GitProgram.Find(surroundings);
        var prefix = git.Run(MostLineBytes, "rev-parse", "--show-prefix");
        if (!prefix.IsSuccess) throw new CommandException(Why(asked, prefix.Error, surroundings));
        var top = git.Run(MostLineBytes, "rev-parse", "--show-toplevel");
        return top.IsSuccess ? new GitRepository(git, top.Line, prefix.Line) : throw new CommandException(Why(asked, top.Error, surroundings));
    }

    /// <summary>The one that a file lies in.</summary>
    /// <param name="file">The file, absolute, without links.</param>
    /// <param name="surroundings">Where git is found.</param>
    /// <exception cref="CommandException">There is no git, or it reads no repository there.</exception>
    public static GitRepository Around(string file, Surroundings surroundings)
    {
        var git = GitProgram.Find(surroundings);
        var top = git.Run(MostLineBytes, "-C", Path.GetDirectoryName(file)!, "rev-parse", "--show-toplevel");
        if (top.IsSuccess && top.Line.Length > 0) return new GitRepository(git, top.Line, "");
        var isNowhere = top.Error.StartsWith(Nowhere, StringComparison.Ordinal);
        throw new CommandException(isNowhere ? "the file lies in no git repository" : Why(file, top.Error, surroundings));
    }

    /// <summary>Runs git at its top.</summary>
    public GitAnswer Run(int mostBytes, params string[] arguments) => git.Run(mostBytes, ["-C", top, .. arguments]);

    /// <summary>What a revision is in this moment, so that what follows cannot be taken for an option or change in between.</summary>
    /// <exception cref="CommandException">There is no such revision.</exception>
    public GitTree TreeOf(string revision)
    {
        if (revision.Length == 0) return new GitTree(this, GitTree.Staged);
        Refuse(revision);
        var tree = Run(MostLineBytes, "rev-parse", "--verify", "--quiet", revision + "^{tree}");
        return IsObject(tree.Line) ? new GitTree(this, tree.Line) : throw new CommandException(Unknown(revision, tree.Error));
    }

    /// <summary>The commit from which two went apart.</summary>
    /// <exception cref="CommandException">There is none.</exception>
    public string MergeBase(string one, string other)
    {
        Refuse(one);
        Refuse(other);
        TreeOf(one);
        TreeOf(other);
        var answer = Run(MostLineBytes, "merge-base", one, other);
        return IsObject(answer.Line)
            ? answer.Line
            : throw new CommandException($"{one} and {other} have no commit in common{(IsShallow ? Deepen : "")}");
    }

    /// <summary>A submodule at a commit; null where it is not checked out.</summary>
    public GitTree? Submodule(string path, string commit)
    {
        var folder = Path.Combine(top, path.Replace('/', Path.DirectorySeparatorChar));
        if (!Path.Exists(Path.Combine(folder, ".git"))) return null;
        var tree = git.Run(MostLineBytes, "-C", folder, "rev-parse", "--verify", "--quiet", commit + "^{tree}");
        return IsObject(tree.Line) ? new GitTree(new GitRepository(git, folder, ""), tree.Line) : null;
    }

    /// <summary>The lines of a list that ends each with a zero byte.</summary>
    public (string[] Lines, string Error) List(params string[] arguments)
    {
        var answer = Run(MostListBytes, arguments);
        return (answer.IsSuccess ? Utf8.GetString(answer.Output).Split('\0', StringSplitOptions.RemoveEmptyEntries) : [], answer.Error);
    }

    /// <summary>Whether it is the name of an object: SHA-1 or SHA-256 in hexadecimal.</summary>
    public static bool IsObject(string line) => line is { Length: 40 or 64 } && line.All(char.IsAsciiHexDigitLower);

    private const string Deepen = "; this checkout is shallow: fetch more of it with git fetch --unshallow, or with fetch-depth: 0 where a job checks out";

    /// <summary>Whether it has not all revisions.</summary>
    public bool IsShallow => Run(MostLineBytes, "rev-parse", "--is-shallow-repository").Line == "true";

    private static void Refuse(string revision)
    {
        if (revision.Length == 0 || revision.StartsWith('-') || revision.Any(char.IsControl)) throw new CommandException($"\"{revision}\" is not a revision");
    }

    private string Unknown(string revision, string error) =>
        $"git knows no revision {revision}{(error.Length > 0 ? $"; it says \"{error}\"" : "")}{(IsShallow ? Deepen : "")}";

    private static string Why(string asked, string error, Surroundings surroundings)
    {
        const string foreign = "dubious ownership";
        if (error.Contains(foreign, StringComparison.Ordinal))
        {
            return $"git does not read this repository: {error}; if you trust whoever owns it, run: "
                + $"git config --global --add safe.directory {Owned(error) ?? surroundings.Here}";
        }

        return $"{asked} names a file in a revision, and this folder lies in no git repository"
            + (error.Length == 0 || error.StartsWith(Nowhere, StringComparison.Ordinal) ? "" : $" that git would read: {error}");
    }

    /// <summary>The folder between quotes in what git says.</summary>
    private static string? Owned(string error) => error.Split('\'') is [_, { Length: > 0 } folder, ..] ? folder : null;
}
