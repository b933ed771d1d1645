using System.Collections.Immutable;
using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using WaterScript.Answers.Usage;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript usage FILE</c>: how much water the zones get, and what runs for it.</summary>
internal sealed class UsageCommand
{
    private const int LastYear = 8_999;

    private static readonly ImmutableArray<UsageAxis> Default = [UsageAxis.Month, UsageAxis.Zone];

    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<ImmutableArray<UsageAxis>?> _by = By();
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First date. Default: the site's effective date.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "Stop before this date. Default: a year after the first.");
    private readonly Option<int?> _year = OptionValues.Number("--year", "YEAR", "A year of the calendar, in place of --from and --until.", 1, LastYear);
    private readonly Option<LocalDate?> _bill = OptionValues.Date("--bill", "Show the bills that this date lies in, line by line.");
    private readonly Option<bool> _all = Arguments.Switch("--all", "Show every zone, schedule and supply, however many there are.");
    private readonly Option<ReportForm?> _report = ReportOption.OfTable();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private UsageCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new UsageCommand(terminal);
        var command = new Command("usage", "Shows how much water the zones get by day, week, month or year, and how long pumps run.")
        {
            self._file, self._by, self._from, self._until, self._year, self._bill, self._all, self._report, self._output, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var (from, until, year) = (parsed.GetValue(_from), parsed.GetValue(_until), parsed.GetValue(_year));
        if (year is not null && (from ?? until) is not null) throw new CommandException("--year names all dates; leave out --from and --until");
        var source = SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal);
        var reading = _terminal.During("Reading", source.Read);
        if (reading is not { Site: { } site, Findings.HasErrors: false }) return Refuse(source, reading);
        new FindingPrinter(_terminal.Error).Print(_terminal.During("Checking", () => CheckedSite.Of(source.Root.Path, reading)).Findings);
        var bill = parsed.GetValue(_bill);
        CheckBill(bill, site, parsed);
        var horizon = year is { } of ? YearOf(site, of) : bill is { } day && (from ?? until) is null ? UsageTerms.DatesOfBills(site, day)
            : HorizonOf(site, from, until);
        var usage = SiteLoader.Answer(site, "Adding up", () => WaterUsage.Of(site, horizon, parsed.GetValue(_by) ?? Default), _terminal);
        output.Write(reading.Files.Select(read => read.Source), stream => Write(usage, parsed, output.IsStandard ? _terminal.Text.Columns : null, stream));
        return ExitCode.Success;
    }

    private void CheckBill(LocalDate? bill, Site site, ParseResult parsed)
    {
        if (bill is null) return;
        if (parsed.GetValue(_report) is { } form && form != ReportForm.Text) throw new CommandException("--bill is text; JSON has all bills with their lines");
        if (site.Supplies.All(supply => supply.Tariff is null)) throw new CommandException("--bill needs a supply with a tariff");
    }

    private int Refuse(SiteSource source, SiteReading reading)
    {
        new FindingPrinter(_terminal.Error).Print(reading.Findings);
        _terminal.Error.Line($"{reading.Site?.DisplayName ?? source.Root.Path}: {FindingSummary.Of(reading.Findings)}. Nothing was added up.");
        return ExitCode.Findings;
    }

    private void Write(WaterUsage usage, ParseResult parsed, int? columns, Stream stream)
    {
        var showsAll = parsed.GetValue(_all);
        switch (parsed.GetValue(_report))
        {
            case ReportForm.Json:
                UsageJson.Write(usage, stream);
                break;
            case ReportForm.Csv:
                UsageJson.WriteCsv(usage, stream);
                break;
            case ReportForm.Markdown:
                MarkdownLines.WriteTo(stream, lines => UsageMarkdown.Write(usage, showsAll, lines));
                break;
            default:
                if (parsed.GetValue(_bill) is { } bill) PlainLines.WriteTo(stream, lines => UsageText.WriteBills(usage, bill, lines));
                else PlainLines.WriteTo(stream, lines => UsageText.Write(usage, showsAll, columns, lines));
                break;
        }
    }

    /// <summary>A year of the calendar, from the site's effective date on where that lies in it.</summary>
    private static Horizon YearOf(Site site, int year)
    {
        var (first, next) = (new LocalDate(year, 1, 1), new LocalDate(year + 1, 1, 1));
        return new Horizon(site.Effective > first && site.Effective < next ? site.Effective : first, next);
    }

    private static Horizon HorizonOf(Site site, LocalDate? from, LocalDate? until)
    {
        var first = from ?? (until <= site.Effective ? until.Value.PlusDays(-1) : site.Effective);
        var end = until ?? first.PlusYears(1);
        if (end <= first)
            throw new CommandException($"--until {LocalDatePattern.Iso.Format(end)} is not after the first day, {LocalDatePattern.Iso.Format(first)}");
        if (Period.DaysBetween(first, end) > Limits.HorizonDays) throw new CommandException($"more than {Limits.HorizonDays} days; choose a nearer --until");
        return new Horizon(first, end);
    }

    /// <summary><c>--by month,zone</c></summary>
    private static Option<ImmutableArray<UsageAxis>?> By()
    {
        UsageAxis[] axes = Enum.GetValues<UsageAxis>();
        string[] words = [.. axes.Select(axis => axis.Word)];
        const string help = "What to list the water by: one word, or two with a comma for a table.";
        var option = OptionValues.Create<ImmutableArray<UsageAxis>?>("--by", "LIST", help, result =>
        {
            var typed = OptionValues.TextOf(result).Split(',');
            if (Array.Find(typed, word => !words.Contains(word)) is { } unknown)
            {
                var meant = Spelling.Nearest(unknown, words) is { } nearest ? $"; did you mean {nearest}?" : "";
                result.AddError($"--by must be {UsageWords.Choice(words)}, not {UsageWords.Typed(unknown)}{meant}");
                return null;
            }

            ImmutableArray<UsageAxis> by = [.. typed.Select(word => axes[Array.IndexOf(words, word)])];
            if (by.Length > 2) result.AddError("--by takes one word or two, such as month,zone");
            else if (by.Length == 2 && by[0] == by[1]) result.AddError("--by has the same word twice");
            else if (by.Count(axis => axis.IsPeriod) > 1)
                result.AddError("--by takes one of day, week, month and year, and zone, schedule or supply beside it");
            else return by;
            return null;
        });
        option.CompletionSources.Clear();
        option.CompletionSources.Add(words);
        return option;
    }
}
