using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Answers.Deployed;

namespace WaterScript.Cli.Files.Git;

/// <summary>Commits of a repository. Nothing is verified of them by another program, whatever its settings ask for.</summary>
/// <param name="repository">The repository.</param>
/// <param name="zone">Whose clock dates are of.</param>
internal sealed class GitCommits(GitRepository repository, DateTimeZone zone)
{
    private const int MostLineBytes = 1 << 16;
    private const int MostListBytes = 1 << 26;
    private const char Mark = '\u0001';
    private static readonly string[] Plain = ["log", "--no-show-signature", "--no-color", "--no-ext-diff", "--no-textconv", "--encoding=UTF-8"];

    /// <summary>A commit by its full name; null where the repository does not have it.</summary>
    public Commit? Named(string name) => GitRepository.IsObject(name) ? Noted(name) : null;

    /// <summary>The commit of a revision, as it is written; null where there is none.</summary>
    public Commit? Of(string revision)
    {
        if (revision.Length == 0 || revision.StartsWith('-')) return null;
        var name = repository.Run(MostLineBytes, "rev-parse", "--verify", "--quiet", revision + "^{commit}").Line;
        return Named(name);
    }

    /// <summary>The last commit that touched some files; null where there is none.</summary>
    /// <param name="paths">From the top of the repository.</param>
    public Commit? LastOf(IEnumerable<string> paths) => Noted(["HEAD", "--", .. paths]);

    /// <summary>The commits that lead to the one that is checked out, the newest first, with the files that each touched.</summary>
    /// <param name="most">The most.</param>
    public IEnumerable<(string Name, IReadOnlyList<string> Files)> Touching(int most)
    {
        var answer = repository.Run(MostListBytes, [.. Plain, "-m", "--name-only", "--no-renames", "-z", "--format=%x01%H",
            string.Create(CultureInfo.InvariantCulture, $"--max-count={most}"), "HEAD"]);
        if (!answer.IsSuccess) yield break;
        var (name, files) = ("", new List<string>());
        foreach (var part in Encoding.UTF8.GetString(answer.Output).Split('\0').Select(part => part.Trim('\n')))
        {
            if (part.Length == 0) continue;
            if (part[0] != Mark)
            {
                files.Add(part);
                continue;
            }

            if (name.Length > 0 && part[1..] != name) yield return (name, files);
            if (part[1..] != name) (name, files) = (part[1..], []); // A merge comes once for each of its parents.
        }

        if (name.Length > 0) yield return (name, files);
    }

    private Commit? Noted(params string[] which)
    {
        var answer = repository.Run(MostLineBytes, [.. Plain, "--max-count=1", "--abbrev=7", "--format=%H%x00%h%x00%ct%x00%s", .. which]);
        if (!answer.IsSuccess || answer.Line.Split('\0') is not [var name, var shown, var at, var subject]) return null;
        return long.TryParse(at, NumberStyles.None, CultureInfo.InvariantCulture, out var second) && second < MostSeconds
            ? new Commit(name, shown, subject, Instant.FromUnixTimeSeconds(second).InZone(zone).Date)
            : null;
    }

    /// <summary>Git takes any number; a date has four digits for its year.</summary>
    private const long MostSeconds = 253_000_000_000;
}
