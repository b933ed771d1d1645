using System.CommandLine;

namespace WaterScript.Cli.Shells;

/// <summary><c>waterscript manual</c>: the manual page, for whoever packs the program.</summary>
internal static class ManualCommand
{
    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var command = new Command("manual", "Prints the manual page, for man.") { Hidden = true };
        command.SetAction(parsed =>
        {
            terminal.Text.Page(ManualPage.Of((RootCommand)parsed.RootCommandResult.Command));
            return ExitCode.Success;
        });
        return command;
    }
}
