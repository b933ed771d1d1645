using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>
/// Labels, reasons, names of files, cells of logs and words of the command line that would steer a terminal, run a command in the log of a
/// workflow, or put markup into a comment. What is forbidden is said here anew, from ECMA-48, UTS 55, the workflow commands of GitHub
/// ("Workflow commands for GitHub Actions") and CommonMark 0.31.
/// </summary>
public sealed partial class HostileTextTests : Workshop
{
    private static readonly string[] Hostile =
    [
        "pwned\e]0;title\a", "pwned\e[31m", "\u009B31mpwned", "pwned\u202Egpj.exe", "\u2066pwned\u2069", "\u200Fpwned\u061C", "pwned\u200B\u2060\uFEFF",
        "a\n::error::pwned", "::error::pwned", "  ::add-mask::pwned", "\r::error::pwned", "\u2028::error::pwned", "\u0085::error::pwned",
            "a\r\n\t::warning::pwned",
        "##[error]pwned", "x ##vso[task.setvariable variable=a]pwned", "pwned\b\b\b\b\u007F", "pwned\U000E0041\U000E007F", "a\u200Dpwned",
        "pwned|x|y", "[pwned](javascript:alert(1))", "![pwned](https://evil.example/x.png)", "<img src=x onerror=alert('pwned')>", "</script><script>pwned//",
            "``` pwned", "`pwned`",
        "@pwned/team", "a@pwned.example", "https://pwned.example", "www.pwned.example", "- pwned", "1. pwned", "# pwned", "*pwned* _x_ ~~x~~", "pwned\\",
            "&lt;pwned&#64;x", "%0A::error::pwned",
    ];

    /// <summary>The commands that say what stands in a file, as words with spaces between them; what <c>FILE</c> is comes from the test.</summary>
    private static readonly string[] Reports =
    [
        "check site.water", "check --show-accepted site.water", "check site.water -o -", "check --diff slip.water", "check broken.water", "check include.water",
        "compile site.water --to yaml --days 2 --despite-errors", "compile site.water --to json --days 2 --despite-errors",
            "compile site.water --to csv --days 2 --despite-errors", "compile site.water --to icalendar --days 2 --despite-errors",
        "compile broken.water --to csv", "chart site.water -o site.svg", "chart site.water -o site.html", "chart broken.water -o broken.svg",
        "next site.water --at 2026-03-11T06:01", "next site.water --at 2026-03-14T06:01", "next broken.water",
            "next site.water --report json --at 2026-03-11T06:01",
            "why site.water lawn 2026-03-11", "why site.water lawn 2026-03-14", "why site.water lawn 2026-03-11 --report json",
        "diff was.water site.water", "diff site.water was.water", "diff was.water site.water --report markdown", "diff site.water was.water --report markdown",
            "diff was.water site.water --report json", "diff broken.water site.water",
        "audit site.water log.csv", "audit site.water log.csv --report markdown", "audit site.water log.csv --report json", "audit site.water bad.csv",
            "advise site.water", "advise broken.water", "usage site.water", "usage site.water --by schedule,supply", "usage site.water --report markdown",
            "usage site.water --report json", "usage site.water --report csv", "usage broken.water",
        "format --diff untidy.water", "format --check untidy.water", "format --diff broken.water", "check site.water --report json",
            "check site.water --report sarif", "check --show-accepted site.water --report sarif",
    ];

    private static readonly string[] Questions =
    [
        "*", "check *", "check --*", "check site.water --from *", "check site.water --report *", "check site.water --baseline *", "check site.water -o */x",
            "compile site.water --to *", "compile site.water --to csv --only *",
        "compile site.water --to csv --days *", "compile site.water --to csv --controller * --despite-errors",
            "compile site.water --to csv --run * --at 2026-03-02T06:00 --despite-errors", "compile site.water --to icalendar --stamp * --despite-errors",
        "chart site.water -o *", "format *", "explain *", "advise *", "next site.water --count *", "next site.water --at *", "why site.water * 2026-03-02",
            "why site.water lawn *", "diff * site.water", "diff *:site.water site.water",
        "diff site.water was.water --until *", "audit site.water *", "audit site.water log.csv --columns *=x", "audit site.water log.csv --tolerance *",
            "check site.water --root *", "check site.water * --help",
            "usage *", "usage site.water --by *", "usage site.water --year *", "usage site.water --until *",
    ];

    public static TheoryData<string> Commands => [.. Reports];

    public static TheoryData<string> Asked => [.. Questions];

    public static TheoryData<int> Numbers => [.. Enumerable.Range(0, Hostile.Length)];

    [Theory]
    [MemberData(nameof(Commands))]
    public void Nothing_of_a_file_is_shown_raw(string command)
    {
        foreach (var hostile in Samples.Some(Hostile, Array.IndexOf(Reports, command)))
        {
            WriteSite(hostile);
            Holds(Answer(command.Split(' ')), $"{command} with {Visible(hostile)}", isMarkdown: command.EndsWith("markdown", StringComparison.Ordinal),
                isDiff: command.Contains("--diff", StringComparison.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Asked))]
    public void Nothing_of_the_command_line_is_shown_raw(string command)
    {
        WriteSite("Garden");
        foreach (var hostile in Samples.Some(Hostile, Array.IndexOf(Questions, command)))
            Holds(Answer(command.Split(' ').Select(word => word.Replace("*", hostile, StringComparison.Ordinal)).ToArray()),
                $"{command} with {Visible(hostile)}");
    }

    /// <summary>What a test shows to be clean says something: the label is there, in whatever is left of it.</summary>
    [Theory]
    [InlineData("check site.water")]
    [InlineData("next site.water --at 2026-03-11T06:01")]
    [InlineData("why site.water lawn 2026-03-11")]
    [InlineData("diff was.water site.water")]
    [InlineData("diff was.water site.water --report markdown")]
    [InlineData("audit site.water log.csv")]
    [InlineData("audit site.water log.csv --report markdown")]
    [InlineData("chart site.water -o site.svg")]
    public void What_is_hidden_is_named(string command)
    {
        WriteSite("pwned\e[31m\n::error::\u202E");
        var (output, error) = Answer(command.Split(' '));
        var shown = (output + error).Replace("\\", "", StringComparison.Ordinal);
        Assert.Contains("pwned<U+001B>[31m<U+000A>::error::<U+202E>", shown, StringComparison.Ordinal);
    }

    [Fact]
    public void A_label_cannot_begin_a_command_in_a_log()
    {
        WriteSite("::error::pwned");
        Assert.Contains("\n<U+003A>:error::pwned: ", Answer("check", "site.water").Output, StringComparison.Ordinal);
        WriteSite("a ##[error]pwned");
        Assert.Contains("\na <U+0023>#[error]pwned: ", Answer("check", "site.water").Output, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Annotations_are_commands_of_ours_alone(int number)
    {
        WriteSite(Hostile[number]);
        var (output, error) = Answer("check", "site.water", "--report", "github");
        Assert.NotEqual("", output);
        Assert.All(output.Split('\n')[..^1], line =>
            Assert.Matches(@"^::(error|warning|notice) file=[^,:\r]+,line=\d+,endLine=\d+(,col=\d+,endColumn=\d+)?,title=[^,:\r]+::[^\r]*$", line));
        Assert.DoesNotMatch(Forbidden(), output + error);
    }

    /// <summary>All of them at once, from a process that lists what is in its folder: relative names begin lines.</summary>
    [Theory]
    [InlineData("check . --from 2026-03-01")]
    [InlineData("check . --report github")]
    [InlineData("check . --report sarif")]
    [InlineData("check . --report json")]
    [InlineData("check . --diff")]
    [InlineData("format . --check")]
    [InlineData("format . --diff")]
    public void Nothing_of_the_name_of_a_file_is_shown_raw(string command)
    {
        if (OperatingSystem.IsWindows()) return; // Such names cannot be given there.
        foreach (var (index, hostile) in Hostile.Index())
        {
            var name = hostile.Replace("/", "", StringComparison.Ordinal);
            Write($"{name}.water", index % 3 == 0 ? Good : "zone  lawn { output 1 }\n");
            Write($"sub/{name}/broken.water", "site a { timezone Europe/Lisbon; effective 2026-03-01 }\nzone lawn { outptu 1 }\n");
        }

        var result = RunLine(command);
        Assert.Contains("pwned", result.Output + result.Error, StringComparison.Ordinal);
        if (command.Contains("github", StringComparison.Ordinal)) Assert.All(result.Output.Split('\n')[..^1], line =>
            Assert.Matches("^::(error|warning|notice) file=[^,:\r]+,line=", line));
        else Holds((result.Output, result.Error), command);
    }

    /// <summary>
    /// No field of CSV is a text of a person's own, and no name begins like a formula, so a spreadsheet computes nothing (OWASP, CSV injection).
    /// </summary>
    [Theory]
    [InlineData("runs")]
    [InlineData("openings")]
    [InlineData("switchings")]
    public void Tables_hold_no_label_and_no_formula(string list)
    {
        WriteSite("=HYPERLINK(\"https://pwned.example\")");
        var (output, _) = Answer("compile", "site.water", "--to", "csv", "--only", list, "--days", "2", "--despite-errors");
        Assert.DoesNotContain("pwned", output, StringComparison.Ordinal);
        Assert.All(output.Split("\r\n").SelectMany(line => line.Split(',')), field => Assert.DoesNotMatch(@"^""?[=+@\t\r-]", field));
    }

    [Fact]
    public void A_laid_out_file_is_written_as_it_is()
    {
        const string Marked = "site a \"\u200Fx\" { timezone Europe/Lisbon; effective 2026-03-01 }\n";
        Assert.Equal(Marked, WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Marked), [], "format", "-").Output);
    }

    private void WriteSite(string hostile)
    {
        var label = Label(hostile);
        string Site(string start) => $$"""
            site garden {{label}} { timezone Europe/Lisbon; location 38.7 N 9.1 W 50 m; effective 2026-03-01 }
            supply tap {{label}} { flow 6 L/min }
            controller box {{label}} { outputs 4 }
            zone lawn {{label}} { output 1; flow 10 L/min; area 60 m2 }
            zone beds {{label}} { output 2 }
            restriction town {{label}} { allow between 20:00 and 05:00 }
            schedule morning {{label}} { every day; start at {{start}}; steps { water lawn for 10 min } }
            schedule again {{label}} { every day; start at 06:05; steps { water lawn for 10 min; water beds for 5 min } }
            hold lawn from 2026-03-11 05:00 to 2026-03-12 18:00 because {{label}}
            accept flow-over-supply because {{label}}
            accept cut-by-hold because {{label}}

            """;
        Write("site.water", Site("06:00"));
        Write("was.water", Site("07:00").Replace($"zone beds {label}", "zone beds \"Beds\"", StringComparison.Ordinal));
        Write("untidy.water", Site("06:00").Replace("{ output", "{output", StringComparison.Ordinal)
            + $"\tzone  more {label} {{ output 3 }}  # {hostile.Replace('\n', ' ').Replace('\r', ' ')}");
        Write(
            "broken.water",
            $"{hostile}\nsite a {label} {{ timezone Europe/Lisbon; effective 2026-03-01 }}\nzone {hostile} {{ outptu 1 }}\n"
                + $"zone b {label} {{ output {label} }}\nlocation {label}\n");
        Write("slip.water", $"{Good}{hostile}\naccept skipped-time because {label}\n");
        Write("include.water", $"{Good}include {label}\n");
        var cell = $"\"{hostile.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
        Write(
            "log.csv",
            $"time,zone,do,why\n2026-03-02T06:00:00,lawn,open,{cell}\n2026-03-02T06:04:00,lawn,\"fault,{cell[1..]},{cell}\n"
                + $"2026-03-02T06:05:00,{cell},open,\n2026-03-03T06:00:00,lawn,{cell},{cell}\n{cell},lawn,open,\n"
                + $"2026-03-03T06:00:00,lawn,skip,{cell}\n2026-03-04T06:00:00,lawn,open,\n");
        Write("bad.csv", $"time,zone,do\n{cell},{cell},{cell}\n");
    }

    private static string Label(string text) => $"\"{string.Concat(text.EnumerateRunes().Select(rune => rune.Value switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        '\n' => "\\n",
        < ' ' or > '~' => string.Create(CultureInfo.InvariantCulture, $"\\u{{{rune.Value:X}}}"),
        _ => rune.ToString(),
    }))}\"";

    private static void Holds((string Output, string Error) answer, string what, bool isMarkdown = false, bool isDiff = false)
    {
        var text = answer.Output + answer.Error;
        var isJson = text.StartsWith('{');

        // A document for programs keeps the joiners of words and emoji, and a text of a calendar may hold a tab (RFC 5545, 3.3.11).
        var isTable = what.Contains("--report csv", StringComparison.Ordinal);
        if (isJson || isTable || what.Contains("--to ", StringComparison.Ordinal)) text = text.Replace("\u200D", "", StringComparison.Ordinal);
        if (what.Contains("--to icalendar", StringComparison.Ordinal)) text = text.Replace("\t", "", StringComparison.Ordinal);
        if (isDiff) text = text.Replace("\t", "    ", StringComparison.Ordinal).Replace("\r\n", "\n", StringComparison.Ordinal);
        if (isTable || what.Contains("--to csv", StringComparison.Ordinal) || what.Contains("--to icalendar", StringComparison.Ordinal)) text =
            text.Replace("\r\n", "\n", StringComparison.Ordinal);
        var raw = Forbidden().Match(text);
        Assert.False(raw.Success, $"{what}: {Visible(raw.Value)} in {Visible(text)}");
        var commands = text.Split('\n')
            .Where(line => line.TrimStart().StartsWith("::", StringComparison.Ordinal)
            || (!isJson && !isTable && LogCommand().IsMatch(line) && !what.Contains("--to ", StringComparison.Ordinal)));
        Assert.True(!commands.Any(), $"{what}: {Visible(string.Join('\n', commands))}");
        if (!isMarkdown) return;
        var isUsage = what.StartsWith("usage ", StringComparison.Ordinal);
        Assert.All(answer.Output.Split('\n'), line =>
        {
            var bare = Escapes().Replace(line, "");
            bare = bare is ['*', '*', .. var heading, '*', '*'] ? heading : Heading().Replace(Rule().Replace(bare, "("), "${words} ");
            if (bare is ['|', ' ', .. var row, ' ', '|']) Assert.InRange(row.Split('|').Length, isUsage ? 2 : TableCells, isUsage ? 4 : TableCells);
            var cells = bare is ['|', ' ', .. var inside, ' ', '|'] ? inside.Split('|').Select(cell => Strong().Replace(cell.Trim(), "${words}")) : [bare];
            Assert.False(cells.Any(Markup().IsMatch), $"{what}: {line}");
        });
        Assert.DoesNotMatch(Linked(), answer.Output.Replace("\\", "", StringComparison.Ordinal));
    }

    private (string Output, string Error) Answer(params string[] words)
    {
        var result = WaterscriptProgram.Run(Folder, words);
        return (result.Output, result.Error);
    }

    private static string Visible(string text) =>
        string.Concat(text.Select(unit =>
        unit is >= ' ' and <= '~' or '\n' ? unit.ToString() : string.Create(CultureInfo.InvariantCulture, $"{{{(int)unit:X4}}}")));

    [GeneratedRegex(@"[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u061C\u200B-\u200F\u2028-\u202E\u2060-\u206F\uFEFF\uFE00-\uFE0D]|\uDB40[\uDC00-\uDFFF]")]
    private static partial Regex Forbidden();

    [GeneratedRegex(@"##[A-Za-z]*\[")]
    private static partial Regex LogCommand();

    /// <summary>What changes is a table of what, was and is.</summary>
    private const int TableCells = 3;

    /// <summary>The heading of a report of changes, with more behind it.</summary>
    [GeneratedRegex(@"^\*\*(?<words>[^*]*)\*\* ")]
    private static partial Regex Heading();

    /// <summary>A cell that draws the eye.</summary>
    [GeneratedRegex(@"^\*\*(?<words>[^*]*)\*\*$")]
    private static partial Regex Strong();

    /// <summary>The name of a rule, as a finding has it before its place.</summary>
    [GeneratedRegex(@"\(`[a-z-]+`(?=, [^ ]+\)$)")]
    private static partial Regex Rule();

    /// <summary>A backslash with its mark, and the sign of a number in code.</summary>
    [GeneratedRegex(@"\\[!-/:-@\[-`{-~]|`[#-]`")]
    private static partial Regex Escapes();

    [GeneratedRegex(@"[`*_\[\]<>#|~&@!$\\]|^- ([-+=]|\d+[.)])")]
    private static partial Regex Markup();

    [GeneratedRegex(@"https?://|www\.|@\w", RegexOptions.IgnoreCase)]
    private static partial Regex Linked();
}
