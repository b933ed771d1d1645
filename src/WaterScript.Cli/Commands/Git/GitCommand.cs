using System.CommandLine;

namespace WaterScript.Cli.Commands.Git;

/// <summary><c>waterscript git</c>: shows watering in what git shows.</summary>
internal static class GitCommand
{
    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal) => new("git", "Has git diff and git log -p show watering in place of lines.")
    {
        Install(terminal), Diff(terminal), Rules(terminal),
    };

    private static Command Install(Terminal terminal)
    {
        var undo = Arguments.Switch("--undo", "Take it back.");
        var yes = Arguments.Switch("--yes", "Do not ask.");
        var command = new Command("install", "Says what it will write into this repository, asks, and writes it.") { undo, yes };
        command.SetAction(parsed =>
        {
            var setup = new GitSetup(terminal);
            return parsed.GetValue(undo) ? setup.Undo(parsed.GetValue(yes)) : setup.Install(parsed.GetValue(yes));
        });
        return command;
    }

    private static Command Diff(Terminal terminal)
    {
        var arguments = new Argument<string[]>("ARGUMENT") { Description = "What git gives an external diff.", Arity = new ArgumentArity(1, 9) };
        var command = new Command("diff", "What git diff calls for a file.") { arguments };
        command.SetAction(parsed => GitDiffDriver.Show(parsed.GetValue(arguments)!, terminal));
        return command;
    }

    private static Command Rules(Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "A file, which may be a part without a site." };
        var command = new Command("rules", "What git log -p calls for a file: its rules, and what they come to in a year.") { file };
        command.SetAction(parsed => GitRules.Show(parsed.GetValue(file)!, terminal));
        return command;
    }
}
