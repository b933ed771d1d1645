using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>Reads a site from a path of the command line.</summary>
internal static class SiteFile
{
    /// <summary>What stands for standard input and output in place of a path.</summary>
    public const string Standard = "-";

    /// <summary>Reads a site and all that it includes.</summary>
    /// <param name="path">A file, or <see cref="Standard"/> for standard input.</param>
    /// <param name="wantedRoot">What <c>--root</c> says, or null.</param>
    /// <param name="terminal">Where standard input is.</param>
    /// <exception cref="CommandException">The file cannot be read.</exception>
    public static SiteReading Read(string path, string? wantedRoot, Terminal terminal)
    {
        if (path == Standard)
        {
            var here = Directory.GetCurrentDirectory();
            var folder = new SourceFolder(RootFolder.Of(here, wantedRoot));
            return Read(folder.Decode(Standard, terminal.OpenInput()), folder.PathOf(Path.Combine(here, Standard)), folder);
        }

        if (Directory.Exists(path)) throw new CommandException($"{path} is a folder; give a file");
        if (!File.Exists(path)) throw new CommandException($"there is no file {path}");
        var files = new SourceFolder(RootFolder.Of(Path.GetDirectoryName(RealPath.Of(path))!, wantedRoot));
        return Read(files.ReadFile(path), files.PathOf(path), files);
    }

    private static SiteReading Read(SourceText root, string rootPath, SourceFolder folder)
    {
        if (folder.Findings is [var only] && root.Text.Length == 0) return new SiteReading(null, [], [only]);
        var reading = SiteReader.Read(root, rootPath, folder, DateTimeZoneProviders.Tzdb);
        if (folder.Findings.Count == 0) return reading;
        return reading with { Findings = [.. folder.Findings, .. reading.Findings.Where(finding => !IsFollowUp(finding))] };
    }

    /// <summary>Whether a finding is about a letter that could not be decoded, which is reported already.</summary>
    private static bool IsFollowUp(Finding finding) => finding.Primary.Location.Text.Contains('\uFFFD', StringComparison.Ordinal);
}
