using System.Globalization;
using System.Text;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Files;

/// <summary>Baselines in files. Paths in them are from the file's own folder, so that it does not matter where a check is started.</summary>
internal static class BaselineFile
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Takes out of what is found what a baseline has.</summary>
    /// <param name="sites">What is found.</param>
    /// <param name="read">The baseline to read, or null.</param>
    /// <param name="write">The baseline to write, or null.</param>
    /// <param name="notes">Where it is said what was written.</param>
    /// <param name="surroundings">Where paths start from.</param>
    /// <param name="problems">What could not be read: a baseline without it would be a wrong one.</param>
    /// <exception cref="CommandException">It cannot be read or written, or both are asked for.</exception>
    public static IEnumerable<CheckedSite> Apply(IEnumerable<CheckedSite> sites, string? read, string? write, PlainLines notes, Surroundings surroundings,
        FileProblems problems)
    {
        if (read is not null && write is not null) throw new CommandException("--baseline reads and --write-baseline writes; give one of them");
        if (write is not null) return Written([.. sites], write, surroundings, problems);
        return read is null ? sites : Without(sites, Read(read, surroundings), read, notes, surroundings);
    }

    private static IEnumerable<CheckedSite> Written(List<CheckedSite> sites, string file, Surroundings surroundings, FileProblems problems)
    {
        if (problems.IsAny) throw new CommandException($"the baseline {file} was not written, because not all of the files could be read");
        if (File.Exists(surroundings.At(file))) Read(file, surroundings);
        var baseline = Baseline.Of(sites, path => PathFrom(surroundings.Whole(file), surroundings.Whole(path)));
        AtomicFile.Write(file, surroundings, stream =>
        {
            using var text = new StreamWriter(stream, Utf8, leaveOpen: true);
            baseline.Write(text);
        });
        return sites.Select(baseline.Apply);
    }

    private static IEnumerable<CheckedSite> Without(IEnumerable<CheckedSite> sites, Baseline baseline, string file, PlainLines notes, Surroundings surroundings)
    {
        foreach (var site in sites) yield return baseline.Apply(site);
        if (baseline.Left > 0)
            notes.Line(string.Create(CultureInfo.InvariantCulture,
                $"{surroundings.Shown(file)}: {baseline.Left} of its findings {(baseline.Left == 1 ? "was" : "were")} not found here; " +
                $"when they are corrected, write it anew with --write-baseline."));
    }

    private static Baseline Read(string file, Surroundings surroundings)
    {
        if (!File.Exists(surroundings.At(file))) throw new CommandException($"there is no baseline {file}; --write-baseline {file} writes one");
        using var text = new StreamReader(RegularFile.OpenNamed(file, surroundings));
        return Baseline.Parse(text.ReadToEnd(), path => PathFrom(surroundings.Whole(file), surroundings.Whole(path)))
            ?? throw new CommandException($"{file} is no baseline; --write-baseline with another name writes one");
    }

    private static string PathFrom(string file, string path) =>
        Path.GetRelativePath(Path.GetDirectoryName(file)!, path).Replace(Path.DirectorySeparatorChar, '/');
}
