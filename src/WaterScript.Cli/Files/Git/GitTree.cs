using System.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>The files of a revision, or those that are staged. Links in it and submodules are followed, as far as they stay in it.</summary>
/// <param name="repository">The repository.</param>
/// <param name="tree">The name of its object, so that all files are of one moment; <see cref="Staged"/> for what is staged.</param>
internal sealed class GitTree(GitRepository repository, string tree)
{
    /// <summary>What stands for all that is staged.</summary>
    public const string Staged = "";

    /// <summary>As many links one after the other as Linux follows.</summary>
    private const int MostLinks = 40;

    /// <summary>Submodules in submodules.</summary>
    private const int MostSubmodules = 10;

    private readonly Dictionary<string, GitEntry?> _found = new(StringComparer.Ordinal);
    private Dictionary<string, GitEntry>? _all;

    /// <summary>All files, links and submodules by path.</summary>
    /// <exception cref="CommandException">Git does not list them.</exception>
    public IReadOnlyDictionary<string, GitEntry> All => _all ??= Listed();

    /// <summary>Whether there is a file, a link or a submodule under a path.</summary>
    public bool Has(string path) => Entry(path) is not null;

    /// <summary>Reads a file.</summary>
    /// <param name="path">From the top of the repository, with <c>/</c> between folders.</param>
    /// <param name="mostBytes">So much of it is read.</param>
    /// <returns>Its bytes; or null, with why where it is there in some way.</returns>
    public (byte[]? Bytes, string? Why) Read(string path, int mostBytes) => Read(path, mostBytes, MostSubmodules);

    private (byte[]? Bytes, string? Why) Read(string path, int mostBytes, int depth)
    {
        if (Direct(path) is not { IsFile: true } entry) return ReadBehind(path, mostBytes, depth);
        return Blob(entry, mostBytes);
    }

    private (byte[]? Bytes, string? Why) Blob(GitEntry entry, int mostBytes)
    {
        var blob = repository.Run(mostBytes, "cat-file", "blob", entry.Name);
        return blob.IsSuccess ? (blob.Output, null) : (null, $"git says \"{blob.Error}\"");
    }

    /// <summary>Follows links and submodules, part by part.</summary>
    private (byte[]? Bytes, string? Why) ReadBehind(string path, int mostBytes, int depth)
    {
        var pending = new Stack<string>(path.Split('/').Reverse());
        var (there, links) = (new List<string>(), 0);
        while (pending.TryPop(out var part))
        {
            if (part == ".." && there.Count == 0) return (null, "a link leads out of the repository");
            if (part == "..") there.RemoveAt(there.Count - 1);
            if (part is "" or "." or "..") continue;
            there.Add(part);
            var next = string.Join('/', there);
            if (Entry(next) is not { } entry) continue;
            if (entry.IsSubmodule)
            {
                if (depth == 0) return (null, "submodules go too deep");
                return repository.Submodule(next, entry.Name) is { } inner
                    ? inner.Read(string.Join('/', pending), mostBytes, depth - 1)
                    : (null, $"submodule {next} is not checked out at that commit; run git submodule update --init {next}");
            }

            if (!entry.IsLink) continue;
            if (++links > MostLinks) return (null, "its links go round in a circle");
            if (Blob(entry, SourceFolder.MostBytes) is not ({ } target, _)) return (null, "a link cannot be read");
            var leads = Encoding.UTF8.GetString(target);
            if (leads.StartsWith('/')) return (null, "a link leads out of the repository");
            there.RemoveAt(there.Count - 1);
            foreach (var step in leads.Split('/').Reverse()) pending.Push(step);
        }

        return Entry(string.Join('/', there)) is { IsFile: true } file ? Blob(file, mostBytes) : (null, null);
    }

    /// <summary>What is directly under a path, without a list of all.</summary>
    private GitEntry? Direct(string path)
    {
        if (_all is not null) return Entry(path);
        if (_found.TryGetValue(path, out var known)) return known;
        var (lines, _) = tree.Length == 0
            ? repository.List("ls-files", "-s", "-z", "--full-name", "--", path)
            : repository.List("ls-tree", "-z", "--full-tree", tree, "--", path);
        var entries = lines.Select(Parsed).Where(entry => entry.Path == path).ToList();
        return _found[path] = entries is [var only, ..] ? only.Entry : null;
    }

    private GitEntry? Entry(string path) => All.TryGetValue(path, out var entry) ? entry : null;

    private Dictionary<string, GitEntry> Listed()
    {
        var (lines, error) = tree.Length == 0
            ? repository.List("ls-files", "-s", "-z", "--full-name")
            : repository.List("ls-tree", "-r", "-z", "--full-tree", tree);
        if (lines.Length == 0 && error.Length > 0) throw new CommandException($"git does not list the files of a revision: it says \"{error}\"");
        var entries = new Dictionary<string, GitEntry>(StringComparer.Ordinal);
        foreach (var (path, entry) in lines.Select(Parsed)) entries.TryAdd(path, entry);
        return entries;
    }

    /// <summary><c>100644 blob NAME⇥path</c> of a tree, <c>100644 NAME 0⇥path</c> of what is staged.</summary>
    private static (string Path, GitEntry Entry) Parsed(string line)
    {
        var tab = line.IndexOf('\t', StringComparison.Ordinal);
        var words = line[..Math.Max(0, tab)].Split(' ');
        return words is [var mode, var second, var third] ? (line[(tab + 1)..], new GitEntry(mode, GitRepository.IsObject(second) ? second : third)) : default;
    }
}
