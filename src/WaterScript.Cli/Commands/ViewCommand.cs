using System.CommandLine;
using System.Diagnostics;
using System.Net.Sockets;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Cli.Viewing;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Linting.Engine;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript view FILE</c>: shows the watering of a site in a browser, and draws it anew whenever the file is saved.</summary>
internal sealed class ViewCommand
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site." };
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "Begin at noon of this date. Default: the first noon after which there is water.");
    private readonly Option<int?> _days = OptionValues.Number("--days", "N", "So many nights, 1 to 31. Default: 1.", 1, Limits.ChartDays);
    private readonly Option<int?> _port = OptionValues.Number("--port", "N", "Listen there. Default: any port that is free.", 1, 65_535);
    private readonly Option<bool> _noBrowser = new("--no-browser") { Description = "Open no browser; the address is shown." };
    private readonly Option<string?> _root = Arguments.Root();

    private ViewCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new ViewCommand(terminal);
        var command = new Command("view", "Shows the watering of a site in a browser, and draws it anew whenever the file is saved.")
        {
            self._file, self._from, self._days, self._port, self._noBrowser, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var file = parsed.GetValue(_file)!;
        if (file == SiteSource.Standard) throw new CommandException("view needs a file; standard input cannot be saved again");
        _ = SiteSource.Open(file, parsed.GetValue(_root), _terminal);
        var (from, days) = (parsed.GetValue(_from), parsed.GetValue(_days) ?? 1);
        var picture = new LivePicture(
            () => SiteSource.Open(file, parsed.GetValue(_root), _terminal), check => Drawn(check, from, days), _terminal.Surroundings);
        try
        {
            using var server = new ViewServer(picture, file, parsed.GetValue(_port) ?? 0);
            using var stop = new CancellationTokenSource();
            ConsoleCancelEventHandler end = (_, pressed) =>
            {
                pressed.Cancel = true;
                stop.Cancel();
            };
            Console.CancelKeyPress += end;
            _terminal.Text.Line($"{server.Address}  Ctrl-C ends it.");
            _terminal.Text.Flush();
            if (!parsed.GetValue(_noBrowser)) Open(server.Address);
            Task.WaitAll([picture.FollowAsync(Pause, stop.Token), server.ServeAsync(stop.Token)], CancellationToken.None);
            Console.CancelKeyPress -= end;
        }
        catch (SocketException problem)
        {
            throw new CommandException($"cannot listen on that port: {problem.SocketErrorCode}");
        }

        return ExitCode.Success;
    }

    /// <summary>The page of a site; null where it has errors, or is more than can be drawn.</summary>
    internal static byte[]? Drawn(CheckedSite check, LocalDate? from, int days)
    {
        if (check is not { Reading.Site: { } site, Lint: { } lint }) return null;
        try
        {
            var span = from is { } first ? new ChartSpan(first, days) : ChartSpan.FromFirstWater(site, days) ?? new ChartSpan(site.Effective, days);
            using var stream = new MemoryStream();
            HtmlChart.Write(Compilation.ChartOf(site, lint, span), new ChartOptions(), stream);
            return stream.ToArray();
        }
        catch (Exception problem) when (problem is WorkUsedUpException or ChartTooLargeException)
        {
            return null;
        }
    }

    private void Open(string address)
    {
        var program = OperatingSystem.IsWindows() ? "explorer" : OperatingSystem.IsMacOS() ? "open" : "xdg-open";
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, [address]) { RedirectStandardError = true, RedirectStandardOutput = true });
        }
        catch (System.ComponentModel.Win32Exception)
        {
            _terminal.Note("No browser could be opened; open the address yourself.");
        }
    }
}
