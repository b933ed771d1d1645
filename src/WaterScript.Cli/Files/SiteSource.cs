using NodaTime;
using WaterScript.Binding;
using WaterScript.Cli.Files.Git;
using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>A root file and the folder that its includes come from, ready to be read as a site, as often as needed.</summary>
internal sealed class SiteSource
{
    /// <summary>What stands for standard input and output in place of a path.</summary>
    public const string Standard = "-";

    private readonly string _rootPath;
    private readonly ISourceFiles _folder;

    private readonly IDateTimeZoneProvider _timeZones;

    private SiteSource(SourceText root, string rootPath, ISourceFiles folder, IDateTimeZoneProvider timeZones) =>
        (Root, _rootPath, _folder, _timeZones) = (root, rootPath, folder, timeZones);

    /// <summary>The root file.</summary>
    public SourceText Root { get; }

    /// <summary>Trees of its files, as they are or as they would be, that are known before it is read.</summary>
    public KnownTrees Trees { get; } = new();

    /// <summary>Whether every letter of the files read so far could be decoded, so that they can be written back.</summary>
    public bool IsText => _folder.Findings.Count == 0;

    /// <summary>Opens a root file.</summary>
    /// <param name="path">A file, or <see cref="Standard"/> for standard input.</param>
    /// <param name="expectedRoot">What <c>--root</c> says, or null.</param>
    /// <param name="terminal">Where standard input is, and what paths start from.</param>
    /// <exception cref="CommandException">The file cannot be read.</exception>
    public static SiteSource Open(string path, string? expectedRoot, Terminal terminal)
    {
        var surroundings = terminal.Surroundings;
        if (path == Standard)
        {
            var here = surroundings.Here;
            var folder = new SourceFolder(RootFolder.Of(here, expectedRoot, surroundings), surroundings);
            return new SiteSource(folder.Decode(Standard, terminal.OpenInput()), folder.PathOf(Path.Combine(here, Standard)), folder, terminal.TimeZones);
        }

        if (path.Length == 0 || path.Contains('\0', StringComparison.Ordinal)) throw new CommandException($"no such file: \"{path}\"");
        if (Directory.Exists(surroundings.At(path))) throw new CommandException($"{path} is a folder; give a file");
        var files = new SourceFolder(RootFolder.Of(Path.GetDirectoryName(RealPath.Of(path, surroundings))!, expectedRoot, surroundings), surroundings);
        return new SiteSource(files.ReadFile(path), files.PathOf(path), files, terminal.TimeZones);
    }

    /// <summary>Opens a root file that may also be one in a revision of git, with its includes from there: <c>HEAD~1:garden.water</c>.</summary>
    /// <inheritdoc cref="Open"/>
    public static SiteSource OpenVersion(string path, string? expectedRoot, Terminal terminal)
    {
        if (!RevisionFolder.IsMeant(path, terminal.Surroundings)) return Open(path, expectedRoot, terminal);
        var (root, rootPath, folder) = RevisionFolder.Open(path, terminal.Surroundings);
        return new SiteSource(root, rootPath, folder, terminal.TimeZones);
    }

    /// <summary>A root file among others, wherever those are.</summary>
    public static SiteSource? Among(ISourceFiles files, string path, IDateTimeZoneProvider timeZones) =>
        files.Read(path) is { } root ? new SiteSource(root, path, files, timeZones) : null;

    /// <summary>A root file whose text is known already.</summary>
    /// <param name="root">Its text.</param>
    /// <param name="rootPath">Its path from the root folder, as <paramref name="folder"/> takes it.</param>
    /// <param name="folder">Where includes come from.</param>
    /// <param name="timeZones">Where time zones come from.</param>
    public static SiteSource Of(SourceText root, string rootPath, ISourceFiles folder, IDateTimeZoneProvider timeZones) =>
        new(root, rootPath, folder, timeZones);

    /// <summary>Reads a site and all that it includes; read again with other texts, it has what could not be decoded too.</summary>
    public SiteReading Read()
    {
        var reading = SiteReader.Read(Root, _rootPath, new Files(_folder, Trees), _timeZones);
        return Completed(reading) with { Again = texts => Completed(reading.Again!(texts)) };
    }

    private SiteReading Completed(SiteReading reading)
    {
        if (IsText) return reading;
        if (_folder.Findings is [var only] && Root.Text.Length == 0) return new SiteReading(null, [], [only]);
        return reading with { Findings = [.. _folder.Findings, .. reading.Findings.Where(finding => !IsFollowUp(finding))] };
    }

    /// <summary>Whether a finding is about a letter that could not be decoded, which is reported already.</summary>
    private static bool IsFollowUp(Finding finding) => finding.Primary.Location.Text.Contains('\uFFFD', StringComparison.Ordinal);

    /// <summary>The files, of which some need not be parsed any more.</summary>
    private sealed class Files(ISourceReader files, KnownTrees trees) : ISourceReader
    {
        public SourceText? Read(string path) => files.Read(path);

        public bool LeadsOutside(string path) => files.LeadsOutside(path);

        public string? WhyUnreadable(string path) => files.WhyUnreadable(path);

        public FileNode Parse(SourceText source, FindingList findings) => trees.Find(source, findings) ?? files.Parse(source, findings);
    }
}
