using System.CommandLine;
using System.CommandLine.Parsing;
using WaterScript.Calendars.TimeZones;
using WaterScript.Cli.Commands.Options;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript explain [RULE]</c>: the page of a rule; without one, the list.</summary>
internal static class ExplainCommand
{
    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var rule = new Argument<Rule?>("RULE")
        {
            HelpName = "RULE",
            Description = "The name in brackets after a finding.",
            Arity = ArgumentArity.ZeroOrOne,
            CustomParser = Find,
        };
        rule.CompletionSources.Add(_ => RuleOption.Names);
        var command = new Command("explain", "Explains what can be found; without a name, lists it.") { rule };
        command.SetAction(parsed => Run(parsed.GetValue(rule), terminal.Text));
        return command;
    }

    private static int Run(Rule? rule, PlainLines output)
    {
        if (rule is null) List(output);
        else output.Page(RulePage.Of(rule, RuleExample.Finding(rule, PackagedTimeZones.Provider)));
        return ExitCode.Success;
    }

    /// <summary>The rule that is asked for; null, with what is wrong, where there is none of that name.</summary>
    private static Rule? Find(ArgumentResult result)
    {
        return result.Tokens.Count == 0 ? null : RuleOption.Find(OptionValues.TextOf(result), result);
    }

    private static void List(PlainLines output)
    {
        var width = RuleCatalogue.Rules.Max(rule => rule.Slug.Length);
        foreach (var rule in RuleCatalogue.Rules) output.Line($"{rule.Slug.PadRight(width)}  {FindingSummary.WordOf(rule.Severity),-7}  {rule.Title}");
    }
}
