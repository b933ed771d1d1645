using System.CommandLine;
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
        var rule = new Argument<string?>("RULE") { Description = "The name in brackets after a finding.", Arity = ArgumentArity.ZeroOrOne };
        var command = new Command("explain", "Explains what can be found; without a name, lists it.") { rule };
        command.SetAction(parsed => Run(parsed.GetValue(rule), terminal.Text));
        return command;
    }

    private static int Run(string? slug, PlainLines output)
    {
        if (slug is null) List(output);
        else output.Page(RulePage.Of(RuleCatalogue.Find(slug) ?? throw Unknown(slug)));
        return ExitCode.Success;
    }

    private static void List(PlainLines output)
    {
        var width = RuleCatalogue.Rules.Max(rule => rule.Slug.Length);
        foreach (var rule in RuleCatalogue.Rules) output.Line($"{rule.Slug.PadRight(width)}  {FindingSummary.WordOf(rule.Severity),-7}  {rule.Title}");
    }

    private static CommandException Unknown(string slug)
    {
        var nearest = Spelling.Nearest(slug, RuleCatalogue.Rules.Select(rule => rule.Slug));
        return new CommandException($"no rule is called \"{slug}\"" + (nearest is null ? "; the list: waterscript explain" : $"; did you mean {nearest}?"));
    }
}
