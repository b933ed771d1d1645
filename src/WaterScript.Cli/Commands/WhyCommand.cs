using System.CommandLine;
using NodaTime;
using WaterScript.Answers.Why;
using WaterScript.Cli.Files;
using WaterScript.Cli.Shells;
using WaterScript.Model;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript why FILE ZONE DATE</c>: whether a zone is watered on a date, and the lines that make it so.</summary>
internal sealed class WhyCommand
{
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Argument<string> _zone = new("ZONE") { Description = "The name of a zone." };
    private readonly Argument<LocalDate?> _date = new("DATE")
    {
        Description = "A date: 2026-05-01.",
        Arity = ArgumentArity.ExactlyOne,
        CustomParser = result => OptionValues.ReadDate(result),
    };

    private readonly Option<ReportForm?> _report = ReportOption.TextOrJson();
    private readonly Option<string?> _root = Arguments.Root();

    private WhyCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new WhyCommand(terminal);
        self._zone.CompletionSources.Add(SiteNames.Of(self._file, site => site.Zones.Select(zone => zone.Name), terminal));
        var command = new Command("why", "Shows whether a zone is watered on a date, and which lines make it so.") { self._file, self._zone, self._date,
            self._report, self._root };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        if (SiteLoader.Read(SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal), _terminal) is not { } site) return ExitCode.Findings;
        var zone = ZoneOf(site, parsed.GetValue(_zone)!);
        var answer = SiteLoader.Answer(site, "Looking", () => DayAnswer.Of(site, zone, parsed.GetValue(_date)!.Value), _terminal);
        if (parsed.GetValue(_report) == ReportForm.Json) DayAnswerJson.Write(answer, _terminal.Output);
        else DayAnswerText.Write(answer, _terminal.Text);
        return ExitCode.Success;
    }

    private static Zone ZoneOf(Site site, string name)
    {
        if ((site.Zones.FirstOrDefault(zone => zone.Name == name) ?? site.Zones.FirstOrDefault(zone => zone.Label == name)) is { } zone) return zone;
        string[] names = [.. site.Zones.Select(known => known.Name)];
        throw new CommandException(UsageWords.NoSuch("zone", name, names));
    }
}
