using System.Globalization;
using System.Text;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using WaterScript.Fuzz.Inputs;

namespace WaterScript.Fuzz.Stages;

/// <summary>
/// A command as it is typed, with the root file on standard input and odd values after its options: it answers with one of its statuses and never with a
/// mistake of its own, and nothing of the file that a terminal obeys comes out of it.
/// </summary>
internal sealed class CommandStage : IStage
{
    private const string OwnMistake = "this is a mistake in waterscript";

    private static readonly string[] Values =
    [
        "2026-05-01", "2026-02-30", "0000-01-01", "9000-12-31", "9999-12-31", "-1", "0", "1", "7", "31", "36525", "36526", "2147483648", "99999999999999999999",
            "1e3", "²", "٣", " 1", "+1", "", "\u001b[31m", "\u202e", "\n::error::x", "lawn", "all",
        "2026-05-01T09:30", "2026-03-29T02:30", "2026-13-01T00:00", "2026-05-01 09:30:61", "text", "json", "markdown", "sarif", "github", "yaml", "csv", "runs",
            "switchings", "pass", "day", "\0", "a=b", "--", "{}", "month,zone", "zone,day", "supply", "week,schedule", "zone,zone", ",",
    ];

    private static readonly string[][] Commands =
    [
        ["check", "-"], ["check", "-", "--diff"], ["check", "-", "--report"], ["check", "-", "--from"], ["next", "-"], ["next", "-", "--at"],
            ["next", "-", "--count"], ["next", "-", "--days"], ["next", "-", "--report"], ["why", "-", "lawn", "2026-05-01"], ["why", "-"], ["advise", "-"],
            ["usage", "-"], ["usage", "-", "--by"], ["usage", "-", "--year"], ["usage", "-", "--until"], ["usage", "-", "--report"],
        ["format", "-", "--diff"], ["format", "-", "--check"], ["compile", "-", "--to"], ["compile", "-", "--to", "yaml", "--days"],
            ["compile", "-", "--to", "csv", "--only"], ["compile", "-", "--to", "icalendar", "--days", "9", "--events"],
        ["compile", "-", "--to", "json", "--days", "3", "--controller"], ["compile", "-", "--to", "csv", "--days", "5", "--despite-errors"],
            ["compile", "-", "--to", "yaml", "--run"], ["explain"],
    ];

    public string Name => "commands";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        var root = site.Files.Files[site.Files.Root];
        var dice = new Dice((ulong)root.Length * FuzzInput.Salts + (ulong)site.Salt);
        var words = dice.Of(Commands).ToList();
        if (words[^1].StartsWith("--", StringComparison.Ordinal) || words is ["explain"] or ["why", "-"]) words.Add(dice.Of(Values));
        if (words is ["why", "-", _] or [.., "--run", _]) words.AddRange(words[0] == "why" ? [dice.Of(Values)] : ["--at", dice.Of(Values)]);
        Call([.. words], root);
        return true;
    }

    private static void Call(string[] words, byte[] input)
    {
        using var output = new MemoryStream();
        var (text, error) = (new StringWriter(CultureInfo.InvariantCulture), new StringWriter(CultureInfo.InvariantCulture));
        var status = CommandLine.Run(words,
            new Terminal(Surroundings.OfProcess(), () => new MemoryStream(input), output, text, error, textHasColour: false, errorHasColour: false));
        var shown = string.Join(' ', words);
        Must.Hold(status is ExitCode.Success or ExitCode.Findings or ExitCode.CannotRun, "a command has one of its statuses", $"{shown}: {status}");
        Must.Hold(!error.ToString().Contains(OwnMistake, StringComparison.Ordinal), "a command makes no mistake of its own", $"{shown}: {error}");
        Must.Hold(status != ExitCode.CannotRun || error.ToString().Length > 0, "a command that cannot run says why", shown);
        // A line of a file that ends with CR LF does so in a diff too, or the diff would not fit the file.
        foreach (var written in (string[])[text.ToString().Replace("\r\n", "\n", StringComparison.Ordinal), error.ToString()])
        {
            if (written.EnumerateRunes().Where(IsObeyed).Select(rune => (int?)rune.Value).FirstOrDefault() is { } obeyed)
                throw new BrokenException("what a terminal obeys is shown and not sent",
                    string.Create(CultureInfo.InvariantCulture, $"{shown}: U+{obeyed:X4}"));
            Must.Hold(!written.Split('\n').Any(line => line.StartsWith("::error::x", StringComparison.Ordinal)),
                "no line of a file is a command for a build server", shown);
        }
    }

    /// <summary>Control characters, and marks that turn the direction of text round (Unicode Standard Annex 9).</summary>
    private static bool IsObeyed(Rune rune) =>
        (Rune.IsControl(rune) && rune.Value is not ('\n' or '\t'))
            || rune.Value is (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069) or 0x200E or 0x200F or 0x061C or 0x2028 or 0x2029;
}
