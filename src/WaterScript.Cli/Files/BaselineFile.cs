using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using WaterScript.Linting.Baselines;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Files;

/// <summary>Baselines in files. Paths in them are from the file's own folder, so that it does not matter where a check is started.</summary>
/// <param name="targets">What is checked: files and folders, as the command line names them.</param>
/// <param name="notes">Where it is said what was not found.</param>
/// <param name="surroundings">Where paths start from.</param>
/// <param name="problems">What could not be read: a baseline without it would be a wrong one.</param>
internal sealed class BaselineFile(ImmutableArray<string> targets, PlainLines notes, Surroundings surroundings, FileProblems problems)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Takes out of what is found what a baseline has.</summary>
    /// <param name="sites">What is found.</param>
    /// <param name="read">The baseline to read, or null.</param>
    /// <param name="write">The baseline to write, or null.</param>
    /// <exception cref="CommandException">It cannot be read or written, or both are asked for.</exception>
    public IEnumerable<CheckedSite> Apply(IEnumerable<CheckedSite> sites, string? read, string? write)
    {
        if (read is not null && write is not null) throw new CommandException("--baseline reads and --write-baseline writes; give one of them");
        if (write is not null) return Written([.. sites], write);
        return read is null ? sites : Without(sites, Read(read), read);
    }

    private IEnumerable<CheckedSite> Written(ImmutableArray<CheckedSite> sites, string file)
    {
        if (problems.IsAny) throw new CommandException($"the baseline {file} was not written, because not all of the files could be read");
        if (File.Exists(surroundings.At(file)) && !BaselineText.IsOld(TextOf(file))) Read(file);
        var baseline = Baseline.Of(sites, PathsOf(file));
        AtomicFile.Write(file, surroundings, stream =>
        {
            using var text = new StreamWriter(stream, Utf8, leaveOpen: true);
            baseline.Write(text);
        });
        return sites.Select(baseline.Apply);
    }

    private IEnumerable<CheckedSite> Without(IEnumerable<CheckedSite> sites, Baseline baseline, string file)
    {
        foreach (var site in sites) yield return baseline.Apply(site);
        if (baseline.Left > 0)
            notes.Line(string.Create(CultureInfo.InvariantCulture,
                $"{surroundings.Shown(file)}: {baseline.Left} of its findings {(baseline.Left == 1 ? "was" : "were")} not found here; " +
                $"when they are corrected, write it anew with --write-baseline."));
    }

    private Baseline Read(string file)
    {
        if (!File.Exists(surroundings.At(file))) throw new CommandException($"there is no baseline {file}; --write-baseline {file} writes one");
        var text = TextOf(file);
        return Baseline.Parse(text, PathsOf(file)) ?? throw new CommandException(BaselineText.IsOld(text)
            ? $"{file} is a baseline of another form, which does not show how bad a finding was; write it anew with --write-baseline {file}"
            : $"{file} is no baseline; --write-baseline with another name writes one");
    }

    private string TextOf(string file)
    {
        using var text = new StreamReader(RegularFile.OpenNamed(file, surroundings));
        return text.ReadToEnd();
    }

    private BaselinePaths PathsOf(string file)
    {
        var folder = Path.GetDirectoryName(surroundings.Whole(file))!;
        ImmutableArray<string> folders = [.. targets.Where(path => Directory.Exists(surroundings.At(path))).Select(surroundings.Whole)];
        string Whole(string name) => Path.GetFullPath(name, folder);
        return new BaselinePaths(
            path => Path.GetRelativePath(folder, surroundings.Whole(path)).Replace(Path.DirectorySeparatorChar, '/'),
            name => File.Exists(Whole(name)),
            name => !File.Exists(Whole(name)) && folders.Any(looked => RealPath.IsInside(Whole(name), looked)));
    }
}
