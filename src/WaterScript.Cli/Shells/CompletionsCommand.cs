using System.CommandLine;

namespace WaterScript.Cli.Shells;

/// <summary><c>waterscript completions SHELL</c>: what a shell runs so that Tab completes a line.</summary>
internal static class CompletionsCommand
{
    private static readonly (string Shell, string Script)[] Scripts =
    [
        ("bash", CompletionScripts.Bash),
        ("zsh", CompletionScripts.Zsh),
        ("fish", CompletionScripts.Fish),
        ("pwsh", CompletionScripts.PowerShell),
    ];

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        string[] shells = [.. Scripts.Select(script => script.Shell)];
        var shell = new Argument<string>("SHELL")
        {
            Description = $"{UsageWords.Choice(shells)}.",
            CustomParser = result => ScriptFor(result),
        };
        shell.CompletionSources.Add(shells);
        var command = new Command("completions", "Prints what a shell runs so that Tab completes a line.") { shell };
        command.SetAction(parsed =>
        {
            terminal.Text.Page(parsed.GetValue(shell)! + "\n");
            return ExitCode.Success;
        });
        return command;
    }

    private static string? ScriptFor(System.CommandLine.Parsing.ArgumentResult result)
    {
        var word = Commands.OptionValues.TextOf(result);
        foreach (var (shell, script) in Scripts)
        {
            if (shell == word) return script;
        }

        result.AddError($"SHELL must be {UsageWords.Choice([.. Scripts.Select(script => script.Shell)])}, not {UsageWords.Typed(word)}");
        return null;
    }
}
