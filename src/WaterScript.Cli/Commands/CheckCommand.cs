using System.Collections.Immutable;
using System.CommandLine;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Cli.Commands.Options;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Caching;
using WaterScript.Diagnostics;
using WaterScript.Documents.Verdicts;
using WaterScript.Linting.Baselines;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript check FILE…</c>: says what is found, and what was looked at.</summary>
internal sealed class CheckCommand
{
    private readonly Terminal _terminal;
    private readonly Argument<string[]> _files =
        new("FILE") { Description = "Files with a site, folders to look for them in, or - for standard input.", Arity = ArgumentArity.ZeroOrMore };
    private readonly Option<string?> _filesFrom =
        Arguments.Text("--files-from", "FILE", "Check also what this file lists, a path a line or with a zero byte behind each; - is standard input.");
    private readonly Option<bool> _strict = Arguments.Switch("--strict", "A warning counts like an error for the exit status.");
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First date to check. Default: the site's effective date.");
    private readonly Option<ReportForm?> _report = ReportOption.OfFindings();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<bool> _fix = Arguments.Switch("--fix", "Apply the safe fixes, none of which gives a new error.");
    private readonly Option<bool> _diff = Arguments.Switch("--diff", "Show what --fix would change, and change nothing.");
    private readonly Option<string?> _baseline = Arguments.Text("--baseline", "FILE", "What is in this file does not count.");
    private readonly Option<string?> _writeBaseline = Arguments.Text("--write-baseline", "FILE", "Write all that is found to this file, for --baseline.");
    private readonly Option<bool> _showAccepted = Arguments.Switch("--show-accepted", "Show what is accepted too, with the reason.");
    private readonly Option<bool> _all = Arguments.Switch("--all", "Show every finding, also where there are more than 20 of one rule.");
    private readonly Option<bool> _missing = Arguments.Switch("--missing", "List by zone all that was not checked, with the statement to add.");
    private readonly Option<Rule[]?> _rules = RuleOption.Create("Look for what this rule finds and nothing else; any such finding gives status 1.");
    private readonly Option<string?> _cache =
        Arguments.Text("--cache", "FOLDER", "Keep in this folder what is found, and check what is unchanged no more. --fix and --diff do not look there.");
    private readonly Option<string?> _root = Arguments.Root();

    private readonly FileProblems _problems;

    private CheckCommand(Terminal terminal) => (_terminal, _problems) = (terminal, new FileProblems(terminal));

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new CheckCommand(terminal);
        var command = new Command("check", "Checks sites, and reports what is wrong, at its place and with a fix.")
        {
            self._files, self._filesFrom, self._strict, self._from, self._report, self._output, self._showAccepted,
            self._all, self._missing, self._rules,
            self._fix, self._diff, self._baseline, self._writeBaseline, self._cache, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var from = parsed.GetValue(_from);
        var options = new TextReportOptions
        {
            ShowsAccepted = parsed.GetValue(_showAccepted),
            ListsMissing = parsed.GetValue(_missing),
            ShowsAll = parsed.GetValue(_all),
            Rules = [.. parsed.GetValue(_rules) ?? []],
        };
        if (!options.Rules.IsEmpty && (parsed.GetValue(_fix) || parsed.GetValue(_diff) || parsed.GetValue(_writeBaseline) is not null))
            throw new CommandException("--rule only looks; leave out --fix, --diff and --write-baseline");
        var report = new ReportWriter(parsed.GetValue(_report) ?? ReportForm.Text, options);
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var isPrinted = report.IsText && output.IsStandard;
        var notes = _terminal.IsQuiet ? new PlainLines(TextWriter.Null) : isPrinted && !parsed.GetValue(_diff) ? _terminal.Text : _terminal.Error;
        var paths = Paths(parsed);
        var targets = Targets(paths, notes);
        if (parsed.GetValue(_fix)) PathsThere.Verify(targets, _terminal.Surroundings);
        if (parsed.GetValue(_diff)) return StatusOf(new FixCommand(_terminal, notes, _problems).Diff(targets, parsed.GetValue(_root), from), parsed);
        var cache = Cache(parsed.GetValue(_cache));
        var checks = parsed.GetValue(_fix)
            ? new FixCommand(_terminal, notes, _problems).Apply(targets, parsed.GetValue(_root), from)
            : CheckAll(targets, new Checking(parsed.GetValue(_root), from, cache, IsAlone: targets.Length == 1));
        var baseline = new BaselineFile(paths, notes, _terminal.Surroundings, _problems);
        var sites = baseline.Apply(OnlyOf(SharedFindings.Of(checks), options.Rules), parsed.GetValue(_baseline), parsed.GetValue(_writeBaseline));
        var gravest = isPrinted ? Report(sites, options) : Write([.. sites], report, output);
        if (cache?.Problem is { } problem && !_terminal.IsQuiet) _terminal.Error.Line($"Not all could be kept in {parsed.GetValue(_cache)}: {problem}.");
        return StatusOf(gravest, parsed);
    }

    private CheckCache? Cache(string? folder) => folder switch
    {
        null => null,
        _ when folder.Length == 0 || folder.Contains('\0', StringComparison.Ordinal) => throw new CommandException($"no such folder: \"{folder}\""),
        _ => new CheckCache(folder, _terminal),
    };

    private int StatusOf(Severity? gravest, ParseResult parsed)
    {
        var least = parsed.GetValue(_rules) is { Length: > 0 } ? Severity.Advice : parsed.GetValue(_strict) ? Severity.Warning : Severity.Error;
        return _problems.StatusOr(gravest >= least ? ExitCode.Findings : ExitCode.Success);
    }

    /// <summary>What the rules that are asked for find; a site with an error that keeps it from being looked at gives no answer.</summary>
    private IEnumerable<CheckedSite> OnlyOf(IEnumerable<CheckedSite> sites, ImmutableArray<Rule> rules)
    {
        foreach (var site in sites)
        {
            if (rules.IsEmpty) yield return site;
            else yield return RuleVerdict.Only(site, rules);
            if (!rules.IsEmpty && !RuleVerdict.IsAnswered(site, rules))
                _problems.Report($"{site.Path}: its errors keep it from being checked for {string.Join(", ", rules.Select(rule => rule.Slug))}");
        }
    }

    /// <summary>Reports each site as soon as it is checked.</summary>
    /// <returns>The gravest finding of all.</returns>
    private Severity? Report(IEnumerable<CheckedSite> sites, TextReportOptions options)
    {
        var text = new TextReport(_terminal.Text, options with { IsQuiet = _terminal.IsQuiet, Columns = _terminal.Columns(options.Columns) });
        Severity? gravest = null;
        foreach (var site in sites)
        {
            text.Print(site);
            gravest = Graver(gravest, site.Worst);
        }

        text.Finish();
        return gravest;
    }

    /// <summary>Writes a report, whole or not at all.</summary>
    /// <returns>The gravest finding of all.</returns>
    private Severity? Write(ImmutableArray<CheckedSite> sites, ReportWriter report, OutputFile output)
    {
        if (sites.IsEmpty && _problems.IsAny) return null;
        output.Write(sites.SelectMany(site => site.Reading.Files).Select(read => read.Source), stream => report.Write(sites, stream));
        return sites.Select(site => site.Worst).Aggregate(default(Severity?), Graver);
    }

    private static Severity? Graver(Severity? first, Severity? second) => first is null || second > first ? second ?? first : first;

    /// <summary>What the arguments name, then what a list names.</summary>
    private ImmutableArray<string> Paths(ParseResult parsed)
    {
        var named = parsed.GetValue(_files)!;
        if (parsed.GetValue(_filesFrom) is { } list)
        {
            if (list == SiteSource.Standard && named.Contains(SiteSource.Standard))
                throw new CommandException("standard input is a site or a list of paths; give it once");
            return [.. named.Concat(PathList.Read(list, _terminal)).Distinct(StringComparer.Ordinal)];
        }

        if (named is []) throw new CommandException("check needs a file, a folder, or --files-from with a list of them");
        return [.. named.Distinct(StringComparer.Ordinal)];
    }

    /// <summary>The root files that the paths lead to, in order.</summary>
    private ImmutableArray<string> Targets(ImmutableArray<string> paths, PlainLines notes) =>
        [.. paths.SelectMany(path => Directory.Exists(_terminal.Surroundings.At(path)) ? SitesIn(path, notes) : [path])];

    /// <summary>
    /// The sites in a folder. What cannot be read does not keep the others from being checked; files that belong to none are named, so that nobody
    /// takes silence for "fine".
    /// </summary>
    private ImmutableArray<string> SitesIn(string folder, PlainLines notes)
    {
        if (FolderWalk.IsNamedLikeAFile(folder))
        {
            _problems.Report($"cannot read {folder}: it is a folder, not a file");
            return [];
        }

        var search = _terminal.During("Looking for sites", () => SiteSearch.In(folder, _terminal.Surroundings));
        foreach (var stray in search.Strays) notes.Line($"{_terminal.Surroundings.Shown(stray)}: not checked, it has no site and no site here includes it.");
        foreach (var problem in search.Unreadable) _problems.Report(problem);
        return !search.Sites.IsEmpty || _problems.IsAny ? search.Sites : throw new CommandException($"no .water file with a site in {folder}");
    }

    /// <summary>
    /// Checks sites side by side; hands them out in their order, each as soon as it and all before it are ready. Only a few are looked at ahead of the one
    /// that is waited for, and none is kept: ten thousand take no more memory than a hundred.
    /// </summary>
    private IEnumerable<CheckedSite> CheckAll(ImmutableArray<string> paths, Checking checking)
    {
        const string stage = "Checking";
        if (paths is [var only]) return Known([_terminal.During(stage, () => _problems.Try(only, () => Check(only, checking)))]);
        var done = 0;
        var reached = Progress.OfFiles(() => Volatile.Read(ref done), paths.Length);
        return Known(SideBySide.Of(paths, path => Counted(path), (path, check) => _terminal.During(stage, () => _problems.Try(path, check), reached)));

        CheckedSite Counted(string path)
        {
            try
            {
                return Check(path, checking);
            }
            finally
            {
                Interlocked.Increment(ref done);
            }
        }
    }

    private static IEnumerable<CheckedSite> Known(IEnumerable<CheckedSite?> sites) => sites.OfType<CheckedSite>();

    private CheckedSite Check(string path, Checking how)
    {
        var source = SiteSource.Open(path, how.Root, _terminal);
        var (shown, reading) = (source.Root.Path, source.Read());
        return how.Cache is { } cache ? cache.Of(shown, reading, how.From, () => Checked(shown, reading, how)) : Checked(shown, reading, how);
    }

    private static CheckedSite Checked(string shown, SiteReading reading, Checking how) =>
        how.IsAlone ? CheckedSite.Of(shown, reading, how.From) : CheckedSite.BesideOthers(shown, reading, how.From);

    /// <summary>How sites are checked.</summary>
    /// <param name="Root">The root folder that the command line names, or null.</param>
    /// <param name="From">First date to look at; null for each site's first.</param>
    /// <param name="Cache">Where it is kept what was found; null for nowhere.</param>
    /// <param name="IsAlone">Whether there is one site, for which all cores work.</param>
    private sealed record Checking(string? Root, LocalDate? From, CheckCache? Cache, bool IsAlone);
}
