using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>Real shells load what <c>completions</c> prints, and complete lines with it.</summary>
public sealed class ShellCompletionTests : Workshop
{
    private const string Bash =
        """
        source <("$WATERSCRIPT" completions bash)
        COMP_LINE=$LINE_TYPED COMP_POINT=${#LINE_TYPED}
        words=($LINE_TYPED); [[ $LINE_TYPED == *' ' ]] && words+=('')
        _waterscript "$WATERSCRIPT" "${words[-1]}"
        printf '%s\n' "${COMPREPLY[@]}"
        """;

    /// <summary>What the function hands to the shell is printed; <c>FILES</c> where it leaves the line to the shell's own completion of files.</summary>
    private const string Zsh =
        """
        compdef() { :; }
        compadd() { local each; for each in ${(P)@[-1]}; do [[ $each == $PREFIX* ]] && print -r -- $each; done; (( ${#${(P)@[-1]}} )); }
        _files() { print FILES; }
        source <("$WATERSCRIPT" completions zsh)
        words=(${(z)LINE_TYPED}); [[ $LINE_TYPED == *' ' ]] && words+=('')
        words[1]=$WATERSCRIPT; CURRENT=$#words; PREFIX=${words[-1]}
        _waterscript
        """;

    private const string Fish =
        """
        function waterscript; $WATERSCRIPT $argv; end
        waterscript completions fish | source
        complete -C "$LINE_TYPED"
        """;

    public static TheoryData<string, string, string> Lines
    {
        get
        {
            var lines = new TheoryData<string, string, string>();
            foreach (var shell in ShellTheoryAttribute.Shells)
            {
                lines.Add(shell, "waterscript ch", "chart check");
                lines.Add(shell, "waterscript compile --to ", "csv icalendar json yaml");
                lines.Add(shell, "waterscript compile site.water --only o", "openings");
                lines.Add(shell, "waterscript check --bas", "--baseline");
                lines.Add(shell, "waterscript why site.water ", "beds lawn");
                lines.Add(shell, "waterscript why site.water l", "lawn");
                lines.Add(shell, "waterscript compile site.water --run ", "morning");
                lines.Add(shell, "waterscript explain voltage-", "voltage-drop");
            }

            return lines;
        }
    }

    [ShellTheory]
    [MemberData(nameof(Lines))]
    public void A_line_is_completed(string shell, string line, string words)
    {
        Write("site.water", Good);
        Assert.Equal(words.Split(' '), Complete(shell, line));
    }

    /// <summary>bash then offers files by itself, as <c>complete -o default</c> says.</summary>
    [ShellTheory]
    [InlineData("bash", "")]
    [InlineData("zsh", "FILES")]
    [InlineData("fish", "site.water")]
    public void Where_a_file_is_due_files_are_offered(string shell, string words)
    {
        Write("site.water", Good);
        Assert.Equal(words, string.Join(' ', Complete(shell, "waterscript check si").Concat(Complete(shell, "waterscript check si")).Distinct()));
    }

    [Fact]
    public void Names_of_a_file_that_cannot_be_read_are_not_offered()
    {
        Write("bad.water", "sit garden { }");
        Assert.All(["bad.water", "missing.water", "-"], file =>
            Assert.DoesNotContain("lawn", Run($"[suggest:{4 + file.Length + 1}]", $"why {file} ").Output, StringComparison.Ordinal));
    }

    [Fact]
    public void A_shell_that_there_is_no_script_for_is_refused() =>
        Assert.Equal("waterscript: SHELL must be bash, zsh, fish or pwsh, not tcsh\n", Run("completions", "tcsh").Error);

    private string[] Complete(string shell, string line)
    {
        string[] options = shell == "fish" ? ["--no-config", "-c", Fish] : shell == "zsh" ? ["-f", "-c", Zsh] : ["-c", Bash];
        var result = WaterscriptProcess.Start(shell, Folder, [], [("WATERSCRIPT", WaterscriptProcess.Path), ("LINE_TYPED", line)], options);
        Assert.Equal("", result.Error);
        return [.. result.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)];
    }
}
