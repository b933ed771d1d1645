using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>
/// The installed git, asked for what a repository holds. The folder it is started in may be anybody's, and so may the settings of its
/// repository: the program is found without looking there, and is given no setting by which the repository could start another.
/// </summary>
/// <param name="program">The absolute path of the program.</param>
/// <param name="patience">After so long it is ended, with all that it has started.</param>
/// <param name="surroundings">The folder it is started in, and what it gets of the environment.</param>
internal sealed class GitProgram(string program, TimeSpan patience, Surroundings surroundings)
{
    private const int MostErrorBytes = 4096;
    private const UnixFileMode AnyExecute = UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    /// <summary>What of the environment git gets: where its user's settings are, and what a system needs to start a program.</summary>
    private static readonly string[] Kept =
        ["HOME", "XDG_CONFIG_HOME", "USERPROFILE", "HOMEDRIVE", "HOMEPATH", "SystemRoot", "SystemDrive", "TMPDIR", "TEMP", "TMP"];

    /// <summary>
    /// What git gets besides. It fetches nothing, neither by itself (<c>GIT_NO_LAZY_FETCH</c>, known since 2.44) nor by any protocol, which stops older ones;
    /// it asks nobody, writes nothing, shows no pages, and takes an object for what it is and a path as it is written.
    /// </summary>
    private static readonly (string Name, string Value)[] Added =
    [
        ("GIT_NO_LAZY_FETCH", "1"), ("GIT_ALLOW_PROTOCOL", "none"), ("GIT_TERMINAL_PROMPT", "0"), ("GIT_OPTIONAL_LOCKS", "0"), ("GIT_PAGER", "cat"),
        ("GIT_NO_REPLACE_OBJECTS", "1"), ("GIT_LITERAL_PATHSPECS", "1"), ("GIT_ASKPASS", ""), ("GIT_TRACE2", "0"), ("LC_ALL", "C"),
    ];

    /// <summary>
    /// Settings above those of the repository: no watcher of files, no hooks, no command for a connection, no repository that hides in a
    /// folder of the checkout, and no blob that git holds in memory as a whole once it is longer than any source.
    /// </summary>
    private static readonly string[] Settings =
    [
        "--no-pager", "--no-optional-locks", "--no-replace-objects", "--literal-pathspecs",
        "-c", "core.fsmonitor=false", "-c", "core.hooksPath=/dev/null", "-c", "core.sshCommand=false", "-c", "protocol.allow=never",
        "-c", "core.pager=cat", "-c", "diff.external=", "-c", "safe.bareRepository=explicit", "-c", "core.bigFileThreshold=24m",
    ];

    /// <summary>The first one on the absolute entries of <c>PATH</c>; a relative or empty entry means the current folder, and is passed over.</summary>
    /// <exception cref="CommandException">There is none.</exception>
    public static GitProgram Find(Surroundings surroundings)
    {
        var name = OperatingSystem.IsWindows() ? "git.exe" : "git";
        var found = Folders(surroundings).Select(folder => Path.Combine(folder, name)).FirstOrDefault(IsProgram);
        return found is not null ? new GitProgram(found, Patience, surroundings)
            : throw new CommandException("a file in a revision needs git, and there is none on the path");
    }

    /// <summary>Runs it.</summary>
    /// <param name="mostBytes">So much of what it prints is taken; it is ended where there is more.</param>
    /// <param name="arguments">What it is to do.</param>
    /// <exception cref="CommandException">It cannot be started, or does not come to an end.</exception>
    public GitAnswer Run(int mostBytes, params string[] arguments)
    {
        using var git = Start(arguments);
        try
        {
            git.StandardInput.Close();
            var error = ReadAsync(git.StandardError.BaseStream, MostErrorBytes, goesOn: true);
            var output = ReadAsync(git.StandardOutput.BaseStream, mostBytes, goesOn: false);
            var time = Stopwatch.StartNew();
            if (!output.Wait(patience)) throw Silent();
            if (output.Result.IsCut) return new GitAnswer(true, output.Result.Bytes, "");
            if (!error.Wait(Left(time)) || !git.WaitForExit(Left(time))) throw Silent();
            return new GitAnswer(git.ExitCode == 0, output.Result.Bytes, Words(error.Result.Bytes));
        }
        finally
        {
            End(git);
        }
    }

    /// <summary>The line that says why, which warnings may come before, and nothing in it that a terminal would carry out.</summary>
    public static string Words(byte[] error)
    {
        var lines = Encoding.UTF8.GetString(error).Trim().Split('\n');
        var line = lines.FirstOrDefault(each => each.StartsWith("fatal: ", StringComparison.Ordinal), lines[0]).TrimEnd();
        var words = new StringBuilder();
        foreach (var rune in line.EnumerateRunes())
        {
            var isHidden = Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator;
            words.Append(isHidden ? "?" : rune.ToString());
        }

        return words.ToString();
    }

    private static IEnumerable<string> Folders(Surroundings surroundings) =>
        (surroundings.Variable("PATH") ?? "").Split(Path.PathSeparator).Where(Path.IsPathFullyQualified);

    private static bool IsProgram(string path)
    {
        try
        {
            return FileStatus.Of(path) is { Kind: FileKind.Regular } status && (OperatingSystem.IsWindows() || (status.Mode & AnyExecute) != 0);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private Process Start(string[] arguments)
    {
        var start = new ProcessStartInfo(program, [.. Settings, .. arguments])
        {
            WorkingDirectory = surroundings.At("."),
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var kept = Kept.Select(name => (Name: name, Value: surroundings.Variable(name))).Where(variable => variable.Value is not null);
        start.Environment.Clear();
        foreach (var (name, value) in kept) start.Environment[name] = value;
        foreach (var (name, value) in Added) start.Environment[name] = value;
        start.Environment["PATH"] = string.Join(Path.PathSeparator, Folders(surroundings));
        try
        {
            return Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            throw new CommandException($"a file in a revision needs git, and {program} cannot be started");
        }
    }

    private TimeSpan Left(Stopwatch time) => time.Elapsed < patience ? patience - time.Elapsed : TimeSpan.Zero;

    private CommandException Silent() =>
        new(string.Create(CultureInfo.InvariantCulture, $"git gave no answer for {patience.TotalSeconds:0.#} seconds and was ended"));

    /// <summary>Reads up to a limit. Whoever still holds the other end is not waited for: the caller stops waiting, and then the process is over.</summary>
    private static async Task<(byte[] Bytes, bool IsCut)> ReadAsync(Stream stream, int most, bool goesOn)
    {
        using var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        int read;
        while ((read = await stream.ReadAsync(buffer).ConfigureAwait(false)) > 0)
        {
            var room = (int)Math.Min(read, most - bytes.Length);
            bytes.Write(buffer, 0, room);
            if (room < read && !goesOn) return (bytes.ToArray(), true);
        }

        return (bytes.ToArray(), false);
    }

    private static void End(Process git)
    {
        try
        {
            if (!git.HasExited) git.Kill(entireProcessTree: true);
        }
        catch (Exception problem) when (problem is InvalidOperationException or Win32Exception or AggregateException)
        {
            // It ended by itself in this moment.
        }
    }
}
