using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>
/// What is no file where one is needed, and what cannot be read or written. A command that waited would run into the time that a test gives it.
/// </summary>
public sealed class HostileFileTests : Workshop
{
    private const string Untidy = "zone   lawn{output 1}\n";
    private const string Mendable = Good + "accept skipped-time because \"the clock change is at night\"\n";

    public static TheoryData<string, string> NotFiles => new()
    {
        { "mkfifo x.water", "cannot read x.water: it is a pipe, not a file; standard input is read as -" },
        { "mkdir x.water", "cannot read x.water: it is a folder, not a file" },
        { "ln -s /dev/zero x.water", "cannot read x.water: it is a device, not a file" },
        { "python3 -c 'import socket; socket.socket(socket.AF_UNIX).bind(\"x.water\")'", "cannot read x.water: it is a socket, not a file" },
    };

    [Theory]
    [MemberData(nameof(NotFiles))]
    public void What_is_no_file_is_an_error_at_once_and_the_others_are_looked_at(string make, string why)
    {
        Write("a.water", Good);
        Write("y.water", Good.Replace("\"Garden\"", "\"Yard\"", StringComparison.Ordinal));
        Assert.Equal("", WaterscriptProcess.Shell(Folder, make).Error);
        foreach (var line in (string[])["check a.water x.water y.water", "check ."])
        {
            var result = RunLine(line);
            if (line != "check ." || !make.StartsWith("ln", StringComparison.Ordinal)) Assert.Equal(
                ($"waterscript: {why}\n".Replace(": cannot read x", line == "check ." ? ": cannot read ./x" : ": cannot read x", StringComparison.Ordinal), 2),
                (result.Error, result.ExitCode));
            Assert.Contains("2 sites: no findings. ", result.Output, StringComparison.Ordinal);
        }

        Assert.Equal(2, RunLine("format a.water x.water y.water").ExitCode);
        if (!make.StartsWith("mkdir", StringComparison.Ordinal)) Assert.Equal(($"waterscript: {why}\n", 2), Refusal("compile --to csv x.water"));
        Assert.Equal(2, RunLine("audit a.water x.water").ExitCode);
        Assert.Equal(2, RunLine("check a.water --baseline x.water").ExitCode);
    }

    [Theory]
    [InlineData("mkfifo inner", "inner", "cannot read \"inner\": it is a pipe, not a file; standard input is read as -")]
    [InlineData("mkdir inner", "inner", "cannot read \"inner\": it is a folder, not a file")]
    [InlineData("ln -s inner inner", "inner", "cannot read \"inner\": its links lead in a circle")]
    [InlineData("ln -s inner inner", "inner/deep.water", "cannot read \"inner/deep.water\": its links lead in a circle")]
    [InlineData("ln -s . inner", "inner", "cannot read \"inner\": it is a folder, not a file")]
    [InlineData("true", "LONG", "cannot read \"LONG\": the path is too long")]
    public void An_include_that_is_no_file_is_a_finding_at_its_place(string make, string include, string heading)
    {
        var name = new string('n', 300);
        WaterscriptProcess.Shell(Folder, make);
        Write("a.water", Good + $"include \"{include.Replace("LONG", name, StringComparison.Ordinal)}\"\n");
        Write("b.water", Good.Replace("\"Garden\"", "\"Yard\"", StringComparison.Ordinal));
        var result = RunLine("check .");
        Assert.Contains($"error: {heading.Replace("LONG", name, StringComparison.Ordinal)} [include-missing]\n  a.water:5:9\n", result.Output,
            StringComparison.Ordinal);
        Assert.Contains("2 sites: 1 error in 1 of them.\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
    }

    [Theory]
    [InlineData("check", "-", "", "no such file: \"\"")]
    [InlineData("format", "--check", "", "no such file: \"\"")]
    [InlineData("compile", "-o", "", "the output has no name; give it one after -o")]
    public void An_empty_name_is_an_error_in_words(string command, string word, string name, string why)
    {
        Write("a.water", Good);
        string[] line = word == "-o" ? [command, "a.water", "--to", "yaml", word, name] : [command, word == "-" ? "a.water" : word, name];
        var result = Run(line);
        Assert.Equal(2, result.ExitCode);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("mistake in waterscript", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_does_not_keep_the_others_from_being_checked()
    {
        Write("b.water", Good);
        var result = RunLine("check a.water b.water");
        Assert.Equal(("waterscript: no such file: a.water\n", 2), (result.Error, result.ExitCode));
        Assert.Contains("Garden: no findings", result.Output, StringComparison.Ordinal);
        Assert.Equal(2, RunLine("check a.water b.water --write-baseline base").ExitCode);
        Assert.False(File.Exists(PathOf("base")));
        Assert.Equal(2, RunLine("check a.water b.water --report json -o out.json").ExitCode);
        Assert.Contains("\"b.water\"", Read("out.json"), StringComparison.Ordinal);
    }

    [UserFact]
    public void What_a_user_may_not_read_is_named_and_the_rest_is_checked()
    {
        Write("a.water", Good);
        Write("b.water", Good);
        Write("shut/c.water", Good);
        var result = WaterscriptProcess.Shell(Folder,
            $"chmod 755 . && chmod 000 b.water shut && {UserFactAttribute.AsUser} \"$WATERSCRIPT\" check .; status=$?; chmod 755 b.water shut; exit $status");
        Assert.Equal("waterscript: cannot look into ./shut: you are not allowed to\nwaterscript: cannot read ./b.water: you are not allowed to\n",
            result.Error);
        Assert.Contains("Garden: no findings", result.Output, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    [Fact]
    public void A_file_without_write_permission_is_not_rewritten_and_the_others_are()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("a.water", Untidy);
        Write("b.water", Untidy);
        File.SetUnixFileMode(PathOf("a.water"), UnixFileMode.UserRead);
        var result = RunLine("format .");
        Assert.Equal(("waterscript: cannot write ./a.water: it is write-protected\n", 2), (result.Error, result.ExitCode));
        Assert.Equal((Untidy, "zone lawn { output 1 }\n"), (Read("a.water"), Read("b.water")));
    }

    [Fact]
    public void Neither_a_fix_nor_an_output_goes_round_permissions()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("site.water", Mendable);
        Write("out.csv", "old");
        File.SetUnixFileMode(PathOf("site.water"), UnixFileMode.UserRead);
        File.SetUnixFileMode(PathOf("out.csv"), UnixFileMode.UserRead);
        Assert.Equal(("waterscript: cannot write site.water: it is write-protected\n", 2), Refusal("check --fix site.water"));
        Assert.Equal(("waterscript: cannot write out.csv: it is write-protected\n", 2), Refusal("check site.water --report json -o out.csv"));
        Assert.Equal((Mendable, "old"), (Read("site.water"), Read("out.csv")));
    }

    [Fact]
    public void A_file_with_several_names_is_left()
    {
        if (!OperatingSystem.IsLinux()) return;
        Write("a.water", Untidy);
        WaterscriptProcess.Shell(Folder, "ln a.water other");
        Assert.Equal(("waterscript: cannot write a.water: it has 2 names (hard links), and only this one would change\n", 2), Refusal("format a.water"));
        Assert.Equal((Untidy, Untidy), (Read("a.water"), Read("other")));
    }

    [UserFact]
    public void Owner_group_and_permissions_stay()
    {
        Write("a.water", Untidy);
        WaterscriptProcess.Shell(Folder, "chown 12345:23456 a.water; chmod 640 a.water");
        Assert.Equal(0, RunLine("format a.water").ExitCode);
        Assert.Equal("12345:23456 640\n", WaterscriptProcess.Shell(Folder, "stat -c '%u:%g %a' a.water").Output);
    }

    [UserFact]
    public void A_file_whose_owner_cannot_be_kept_is_left()
    {
        Write("a.water", Untidy);
        var result = WaterscriptProcess.Shell(Folder, $"chmod 777 .; chmod 666 a.water; {UserFactAttribute.AsUser} \"$WATERSCRIPT\" format a.water");
        Assert.Equal(("waterscript: cannot write a.water: its owner and group could not be kept; its owner may write it\n", 2),
            (result.Error, result.ExitCode));
        Assert.Equal(Untidy, Read("a.water"));
        Assert.Equal(["a.water"], Names());
    }

    [Fact]
    public void A_link_stays_and_its_target_is_rewritten()
    {
        Write("real/a.water", Untidy);
        File.CreateSymbolicLink(PathOf("a.water"), "real/a.water");
        Assert.Equal(0, RunLine("format a.water").ExitCode);
        Assert.Equal("real/a.water", new FileInfo(PathOf("a.water")).LinkTarget);
        Assert.Equal("zone lawn { output 1 }\n", Read("real/a.water"));
    }

    [Theory]
    [InlineData("mkfifo out; cat out > copy & \"$WATERSCRIPT\" compile site.water --to csv -o out; wait; test -p out && cat copy")]
    [InlineData("echo before > copy; { \"$WATERSCRIPT\" compile site.water --to csv -o /dev/stdout; echo after; } >> copy; "
        + "grep -q before copy && grep -q after copy && grep -v before copy | grep -v after")]
    [InlineData("\"$WATERSCRIPT\" compile site.water --to csv -o /dev/stdout | cat")]
    [InlineData("\"$WATERSCRIPT\" compile site.water --to csv -o /dev/fd/1 | cat")]
    [InlineData("ln -s /dev/stdout link; \"$WATERSCRIPT\" compile site.water --to csv -o link | cat; test -L link")]
    [InlineData("\"$WATERSCRIPT\" compile site.water --to csv -o /dev/stderr 2>&1 | cat")]
    public void What_is_no_file_is_written_into(string line)
    {
        if (!OperatingSystem.IsLinux()) return;
        Write("site.water", Good);
        var result = WaterscriptProcess.Shell(Folder, line);
        Assert.Equal((RunLine("compile site.water --to csv").Output, "", 0), (result.Output, result.Error, result.ExitCode));
    }

    /// <summary>A hundred years are over 70,000 runs; the status is that of a program that SIGPIPE ends (POSIX: 128 and its number, 13).</summary>
    [Fact]
    public void Whoever_has_read_enough_ends_the_program()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("site.water", Good);
        Write("line", "{ \"$WATERSCRIPT\" compile site.water --to csv --days 36500; echo $? > status; } | head -1");
        var result = WaterscriptProcess.Shell(Folder, "sh line");
        Assert.StartsWith("run,from,to,", result.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("waterscript", result.Error, StringComparison.Ordinal);
        Assert.Equal("141\n", Read("status"));
    }

    private (string Error, int Code) Refusal(string line)
    {
        var result = RunLine(line);
        return (result.Error, result.ExitCode);
    }
}
