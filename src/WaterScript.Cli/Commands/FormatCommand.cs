using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using WaterScript.Cli.Files;
using WaterScript.Documents.Reports;
using WaterScript.Text.Diffs;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript format FILE…</c>: gives files the one layout that all files have.</summary>
internal sealed class FormatCommand
{
    /// <summary>Files that the command which lays them out names.</summary>
    private const int MostNamed = 20;

    private readonly Terminal _terminal;
    private readonly Argument<string[]> _files =
        new("FILE") { Description = "Files, folders to lay out every .water file in, or - for standard input.", Arity = ArgumentArity.OneOrMore };
    private readonly Option<bool> _check = Arguments.Switch("--check", "Write nothing; name the files that would change, exit with status 1 if any would.");
    private readonly Option<bool> _diff = Arguments.Switch("--diff", "Write nothing; show what would change.");
    private readonly Option<string?> _root = Arguments.Root();

    private readonly FileProblems _problems;

    private FormatCommand(Terminal terminal) => (_terminal, _problems) = (terminal, new FileProblems(terminal));

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new FormatCommand(terminal);
        var command = new Command("format", "Lays files out in the one way that all files are laid out.") { self._files, self._check, self._diff, self._root };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var isCheck = parsed.GetValue(_check);
        var isWritten = !isCheck && !parsed.GetValue(_diff);
        Action<FileLayout> deliver = parsed.GetValue(_diff) ? ShowDiff : isCheck ? ShowName : Write;
        var paths = Paths(parsed.GetValue(_files)!);
        if (isWritten) PathsThere.Verify(paths, _terminal.Surroundings);
        var (changed, refused) = (new List<string>(), new List<string>());
        foreach (var (index, path) in paths.Index())
        {
            FileLayout LayOut() =>
                _terminal.During("Laying out", () => FileLayout.Of(path, parsed.GetValue(_root), _terminal), Progress.OfFiles(() => index, paths.Length));
            if (_problems.Try(path, () => Deliver(LayOut(), deliver, isNamed: isCheck && paths.Length > 1)) is not { Formatted: not null } layout)
                refused.Add(path);
            else if (layout.IsChanged) changed.Add(path);
        }

        if (isCheck && paths.Length > 1 && !_terminal.IsQuiet) _terminal.Error.Line(Sum(changed.Count, refused));
        if (isCheck && changed.Count > 0) _terminal.Note(Repair(changed));

        var isAnyDone = changed.Count > 0 || refused.Count < paths.Length || !_problems.IsAny;
        if (isWritten && !_terminal.IsQuiet && !paths.IsEmpty && !paths.Contains(SiteSource.Standard) && isAnyDone)
            _terminal.Text.Line(Sum(paths.Length, changed.Count, refused.Count));
        return _problems.StatusOr(refused.Count > 0 || (isCheck && changed.Count > 0) ? ExitCode.Findings : ExitCode.Success);
    }

    /// <summary>Delivers a file that can be laid out; of another its findings are shown, unless it is named at the end.</summary>
    private FileLayout Deliver(FileLayout layout, Action<FileLayout> deliver, bool isNamed)
    {
        if (layout.Formatted is null && isNamed) return layout;
        if (layout.Formatted is null) Refuse(layout);
        else deliver(layout);
        return layout;
    }

    private static string Sum(int all, int changed, int refused) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Phrases.Count(all, "file")}: {changed} laid out anew, {all - changed - refused} already " +
            $"so{(refused == 0 ? "" : $", {refused} left because of errors")}.");

    /// <summary><c>2 files would change. 2 were not read because of errors: merge.water, syntax.water.</c></summary>
    private string Sum(int changed, List<string> refused)
    {
        var would = $"{Phrases.Count(changed, "file")} would change.";
        if (refused.Count == 0) return would;
        string[] names = [.. refused.Select(ShownName)];
        return string.Create(CultureInfo.InvariantCulture,
            $"{would} {refused.Count} {(refused.Count == 1 ? "was" : "were")} not read because of errors: {Phrases.Names(names)}.");
    }

    /// <summary><c>To lay them out: waterscript format slips.water wire.water</c></summary>
    private string Repair(List<string> changed)
    {
        var names = changed.Take(MostNamed).Select(path => path == SiteSource.Standard ? path : ShownName(path)).Select(Argument);
        var them = changed.Count == 1 ? "it" : "them";
        return $"To lay {them} out: {CommandLine.Program} format {string.Join(' ', names)}{(changed.Count > MostNamed ? " …" : "")}";
    }

    /// <summary>A name as a shell takes it.</summary>
    private static string Argument(string name) =>
        name.All(letter => char.IsLetterOrDigit(letter) || "/._-".Contains(letter, StringComparison.Ordinal)) ? name
            : $"'{name.Replace("'", "'\\''", StringComparison.Ordinal)}'";

    /// <summary>A path as it is shown; one that can be no file as it was given.</summary>
    private string ShownName(string path) =>
        path == SiteSource.Standard || path.Length == 0 || path.Contains('\0', StringComparison.Ordinal) ? $"\"{path}\"" : _terminal.Surroundings.Shown(path);

    private ImmutableArray<string> Paths(string[] arguments) =>
        [.. arguments.Distinct(StringComparer.Ordinal).SelectMany(path => Directory.Exists(_terminal.Surroundings.At(path)) ? FilesIn(path) : [path])];

    private ImmutableArray<string> FilesIn(string folder)
    {
        if (FolderWalk.IsNamedLikeAFile(folder))
        {
            _problems.Report($"cannot read {folder}: it is a folder, not a file");
            return [];
        }

        var walk = FolderWalk.Of(folder, _terminal.Surroundings);
        foreach (var problem in walk.Unreadable) _problems.Report(problem);
        return !walk.Files.IsEmpty || _problems.IsAny ? walk.Files : throw new CommandException($"no .water file in {folder}");
    }

    private void Refuse(FileLayout layout)
    {
        new FindingPrinter(_terminal.Error).Print(layout.Findings);
        _terminal.Error.Line($"{layout.Source.Path}: {FindingSummary.Of(layout.Findings)}. Left as it is.");
    }

    private void Write(FileLayout layout)
    {
        if (layout.Path == SiteSource.Standard) _terminal.Output.Write(FileContent.Of(layout.Formatted!));
        else if (layout.IsChanged) FileContent.Write(layout.Path, layout.Source, layout.Formatted!, _terminal.Surroundings);
        else AtomicFile.RemoveLeft(layout.Path, _terminal.Surroundings);
    }

    private void ShowName(FileLayout layout)
    {
        if (layout.IsChanged) _terminal.Text.Line(layout.Source.Path);
    }

    private void ShowDiff(FileLayout layout) =>
        UnifiedDiff.Write(layout.Source.Path, layout.Source.Path, layout.Source.Text, layout.Formatted!.Text, _terminal.Text);
}
