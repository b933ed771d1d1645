using System.CommandLine;
using WaterScript.Cli.Commands;

namespace WaterScript.Cli.LanguageServer;

/// <summary><c>waterscript lsp</c>: answers an editor while somebody types.</summary>
internal sealed class LspCommand
{
    private readonly Terminal _terminal;
    private readonly Option<bool> _stdio = Arguments.Switch("--stdio", "Speak over standard input and output. It always does; some editors add this.");

    private LspCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new LspCommand(terminal);
        var command = new Command("lsp", "Serves an editor: findings, fixes, completion and the rest of the Language Server Protocol.") { self._stdio };
        command.SetAction(_ => self.Run());
        return command;
    }

    private int Run()
    {
        var stream = new MessageStream(_terminal.OpenInput(), _terminal.Output);
        using var server = new Server(stream, _terminal.Surroundings, _terminal.TimeZones);
        return server.Run();
    }
}
