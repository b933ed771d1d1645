using System.CommandLine;
using System.CommandLine.Completions;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using WaterScript.Cli.Commands;
using WaterScript.Cli.Commands.Comparing;
using WaterScript.Cli.Commands.Deployed;
using WaterScript.Cli.Commands.Git;
using WaterScript.Cli.LanguageServer;
using WaterScript.Cli.Shells;
using WaterScript.Diagnostics;

namespace WaterScript.Cli;

/// <summary>The commands, and what happens to whatever goes wrong in them.</summary>
internal static class CommandLine
{
    /// <summary>What the program is called.</summary>
    public const string Program = "waterscript";

    /// <summary>Runs a command.</summary>
    /// <param name="arguments">What was typed after the program's name.</param>
    /// <param name="terminal">Where it reads and writes.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static int Run(string[] arguments, Terminal terminal)
    {
        try
        {
            var root = Root(terminal);
            foreach (var version in root.Options.OfType<VersionOption>())
            {
                version.Validators.Clear(); // It goes with --tzdata.
                version.Action = new VersionAction((SynchronousCommandLineAction)version.Action!, terminal);
            }

            var options = new GlobalOptions();
            options.AddTo(root);
            // A misspelt -output is no -o with "utput" behind it.
            var parsed = root.Parse(arguments, new ParserConfiguration { ResponseFileTokenReplacer = null, EnablePosixBundling = false });
            options.Apply(parsed, terminal);
            var code = Invoke(parsed, terminal);
            terminal.Text.Flush();
            return code;
        }
        catch (ReaderGoneException)
        {
            return ExitCode.ReaderGone;
        }
        catch (CommandException problem)
        {
            return Refuse(terminal, problem.Message);
        }
        catch (WorkUsedUpException)
        {
            return Refuse(terminal, "this site asks for more work than an answer may take [over-limit]; `check` says what makes it so large");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return Refuse(terminal, IoWords.Of(problem));
        }
#pragma warning disable CA1031 // The last resort: whatever it was, a person reads one sentence, not a stack of calls.
        catch (Exception problem)
#pragma warning restore CA1031
        {
            return Refuse(terminal,
                $"this is a mistake in {Program} itself, please report it with the file that shows it: {problem.GetType().Name}, {problem.Message}");
        }
    }

    private static RootCommand Root(Terminal terminal) => new("Checks irrigation schedules, and turns them into timetables, calendars and charts.")
    {
        CheckCommand.Create(terminal),
        CompileCommand.Create(terminal),
        ChartCommand.Create(terminal),
        ViewCommand.Create(terminal),
        FormatCommand.Create(terminal),
        NextCommand.Create(terminal),
        WhyCommand.Create(terminal),
        DiffCommand.Create(terminal),
        GitCommand.Create(terminal),
        AuditCommand.Create(terminal),
        DeployedCommand.Create(terminal),
        ExplainCommand.Create(terminal),
        LspCommand.Create(terminal),
        AdviseCommand.Create(terminal),
        UsageCommand.Create(terminal),
        CompletionsCommand.Create(terminal),
        ManualCommand.Create(terminal),
    };

    private static int Invoke(ParseResult parsed, Terminal terminal)
    {
        if (parsed.Errors is [var error, ..] && parsed.Action is not System.CommandLine.Help.HelpAction && !IsAskedToComplete(parsed))
            return RefuseLine(terminal, UsageWords.Of(error, parsed, terminal.Surroundings), parsed);
        if (UsageWords.MisspeltOption(parsed, terminal.Surroundings) is { } option) return RefuseLine(terminal, option, parsed);
        using var help = new StringWriter();
        var code = parsed.Invoke(new InvocationConfiguration { Output = help, Error = help, EnableDefaultExceptionHandler = false });
        terminal.Text.Page(help.ToString());
        return code;
    }

    /// <summary>Whether a shell asks how an unfinished line may go on: <c>[suggest:13] "compile --to "</c>.</summary>
    private static bool IsAskedToComplete(ParseResult parsed) =>
        ((RootCommand)parsed.RootCommandResult.Command).Directives.OfType<SuggestDirective>().Any(directive => parsed.GetResult(directive) is not null);

    private static string Usage(CommandResult command) =>
        command.Command is RootCommand ? Program : $"{Program} {command.Command.Name}";

    private static int RefuseLine(Terminal terminal, (string Words, bool IsAll) why, ParseResult parsed) =>
        why.IsAll ? Refuse(terminal, why.Words) : Refuse(terminal, why.Words, $"See: {Usage(parsed.CommandResult)} --help");

    /// <summary>Says why, after what there is to say already.</summary>
    private static int Refuse(Terminal terminal, string why, params ReadOnlySpan<string> more)
    {
        AsFarAsPossible(terminal.Text.Flush);
        string[] lines = [$"{Program}: {why}", .. more];
        AsFarAsPossible(() => Array.ForEach(lines, terminal.Error.Line));
        return ExitCode.CannotRun;
    }

    /// <summary>Where even the message cannot be written, the status alone has to do.</summary>
    private static void AsFarAsPossible(Action write)
    {
        try
        {
            write();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
        }
    }
}
