using System.Text;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;

namespace WaterScript.Cli.Commands.Git;

/// <summary>
/// Has git show watering in place of lines: a line of <c>.gitattributes</c>, which all who have the repository share, and two settings of this checkout.
/// Where the program is not there, git shows lines as before.
/// </summary>
internal sealed class GitSetup
{
    private const string Attributes = ".gitattributes";
    private const string Line = "*.water diff=waterscript";
    private const string Section = "diff.waterscript";
    private const int MostBytes = 1 << 16;

    private static readonly (string Key, string Value)[] Settings =
    [
        (Section + ".command", "f() { waterscript git diff \"$@\" || diff -u \"$2\" \"$5\"; true; }; f"),
        (Section + ".textconv", "f() { waterscript git rules \"$1\" || cat \"$1\"; }; f"),
    ];

    private readonly Terminal _terminal;
    private readonly GitRepository _repository;
    private readonly string _attributes;

    public GitSetup(Terminal terminal)
    {
        _terminal = terminal;
        _repository = GitRepository.At("waterscript git install", terminal.Surroundings);
        _attributes = Path.Combine(_repository.Top, Attributes);
    }

    /// <summary>Says what it will write, asks, and writes it.</summary>
    /// <param name="isAgreed">Whether it need not ask.</param>
    public int Install(bool isAgreed)
    {
        var missing = Settings.Where(setting => ValueOf(setting.Key) != setting.Value).ToList();
        var hasLine = Lines().Contains(Line);
        if (hasLine && missing.Count == 0)
        {
            _terminal.Text.Line("git shows watering here already; waterscript git install --undo ends that");
            return ExitCode.Success;
        }

        if (!hasLine) _terminal.Text.Line($"Adds to {_attributes}: {Line}");
        foreach (var (key, value) in missing) _terminal.Text.Line($"Sets in this checkout: {key} = {value}");
        if (!isAgreed && !IsAgreed()) return ExitCode.CannotRun;
        foreach (var (key, value) in missing) Set("--replace-all", key, value);
        if (!hasLine) Write([.. Lines(), Line]);
        _terminal.Text.Line("Done. git diff shows what changes in the watering, git log -p the rules; git diff --no-ext-diff --no-textconv shows lines.");
        return ExitCode.Success;
    }

    /// <summary>Takes back what was written, and nothing else.</summary>
    /// <param name="isAgreed">Whether it need not ask.</param>
    public int Undo(bool isAgreed)
    {
        var set = Settings.Where(setting => ValueOf(setting.Key).Length > 0).ToList();
        var lines = Lines();
        if (set.Count == 0 && !lines.Contains(Line))
        {
            _terminal.Text.Line("nothing to undo");
            return ExitCode.Success;
        }

        if (lines.Contains(Line)) _terminal.Text.Line($"Takes out of {_attributes}: {Line}");
        foreach (var (key, _) in set) _terminal.Text.Line($"Unsets in this checkout: {key}");
        if (!isAgreed && !IsAgreed()) return ExitCode.CannotRun;
        foreach (var (key, _) in set) Set("--unset-all", key);
        if (lines.Contains(Line)) Write([.. lines.Where(line => line != Line)]);
        _terminal.Text.Line("Done.");
        return ExitCode.Success;
    }

    private bool IsAgreed()
    {
        _terminal.Text.Line("Go on? yes or no");
        _terminal.Text.Flush();
        using var input = new StreamReader(_terminal.OpenInput());
        if (input.ReadLine()?.Trim() is "yes" or "y") return true;
        _terminal.Error.Line("Nothing was written; answer yes, or give --yes.");
        return false;
    }

    private string ValueOf(string key) => _repository.Run(MostBytes, "config", "--local", "--get", key).Line;

    private void Set(params string[] arguments)
    {
        var answer = _repository.Run(MostBytes, ["config", "--local", .. arguments]);
        if (!answer.IsSuccess) throw new CommandException($"git does not set {arguments[1]}: it says \"{answer.Error}\"");
    }

    private string[] Lines() => File.Exists(_attributes)
        ? [.. File.ReadAllText(_attributes).TrimEnd().Split('\n').Select(line => line.TrimEnd('\r'))]
        : [];

    /// <summary>Writes the lines; a file that has none is taken away.</summary>
    private void Write(string[] lines)
    {
        var text = string.Join('\n', lines).Trim('\n');
        if (text.Length == 0) File.Delete(_attributes);
        else AtomicFile.Write(_attributes, _terminal.Surroundings, stream => stream.Write(Encoding.UTF8.GetBytes(text + "\n")));
    }
}
