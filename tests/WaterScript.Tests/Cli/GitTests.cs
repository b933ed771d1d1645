using System.Diagnostics;
using System.Text;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>
/// What a repository, a folder and an environment of somebody else's may try with a file in a revision. Each way to start a program leaves the file "ran".
/// </summary>
public sealed class GitTests : Workshop
{
    private static readonly string[] Variables =
    [
        "GIT_DIR=other/.git", "GIT_WORK_TREE=other", "GIT_OBJECT_DIRECTORY=other/.git/objects", "GIT_INDEX_FILE=other/.git/index", "GIT_EXEC_PATH=other",
        "GIT_NAMESPACE=other", "GIT_TRACE=traced", "GIT_CONFIG_PARAMETERS='core.worktree'='other'",
    ];

    private const string Commit = "git init -q . && git add site.water && git -c user.name=t -c user.email=t@example.org commit -q -m one";

    /// <summary>Each variable by itself where all samples are tried, else all of them at once.</summary>
    public static TheoryData<string> Environments => Samples.AreAll ? [.. Variables] : [string.Join('\n', Variables)];

    [Theory]
    [InlineData("PATH=\":$PATH\"")]
    [InlineData("PATH=\".:$PATH\"")]
    [InlineData("PATH=\"bin:$PATH\"")]
    [InlineData("")]
    public void A_program_called_git_in_the_current_folder_is_not_started(string path)
    {
        Repository();
        Program("git");
        Program("bin/git");
        var result = WaterscriptProcess.Shell(Folder, $"{path} \"$WATERSCRIPT\" diff HEAD:site.water site.water");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        NothingRan();
    }

    [Fact]
    public void An_entry_that_is_no_program_is_passed_over()
    {
        Repository();
        Write("text/git", "#!/bin/sh\ntouch ran\n");
        Directory.CreateDirectory(PathOf("folder/git"));
        WaterscriptProcess.Shell(Folder, "mkdir pipe && mkfifo -m 777 pipe/git");
        var result = WaterscriptProcess.Shell(Folder, "PATH=\"$PWD/text:$PWD/folder:$PWD/pipe:$PATH\" \"$WATERSCRIPT\" diff HEAD:site.water site.water");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        NothingRan();
    }

    /// <summary>
    /// The settings by which a repository starts programs, from git-config(1), and a blob that git would fetch from a remote whose program is the repository's
    /// own.
    /// </summary>
    [Fact]
    public void A_repository_starts_no_program_by_its_settings()
    {
        Repository();
        Program("evil");
        WaterscriptProcess.Shell(Folder, """
            for key in core.fsmonitor core.sshCommand core.pager core.editor core.askPass core.gitProxy diff.external gpg.program \
                pager.cat-file pager.rev-parse; do git config $key ./evil; done
            git config alias.rev-parse '!./evil'; git config alias.cat-file '!./evil'; git config core.hooksPath .
            git config filter.x.smudge ./evil; git config diff.x.textconv ./evil; echo '* filter=x diff=x' > .gitattributes
            git config core.repositoryFormatVersion 1; git config extensions.partialClone origin; git config remote.origin.promisor true
            git config remote.origin.url .; git config remote.origin.uploadpack ./evil; git config protocol.file.allow always
            rm -f .git/objects/$(git rev-parse HEAD:site.water | sed 's|^..|&/|'); rm -f ran
            """);
        var result = Run("diff", "HEAD:site.water", "site.water");
        Assert.StartsWith("waterscript: cannot read HEAD:site.water: git says \"", result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        NothingRan();
    }

    [Theory]
    [MemberData(nameof(Environments))]
    public void The_environment_leads_git_nowhere_else(string variables)
    {
        Repository();
        Write("other/site.water", Good.Replace("06:00", "09:00", StringComparison.Ordinal));
        WaterscriptProcess.Shell(PathOf("other"), Commit);
        (string Name, string Value)[] environment = [.. variables.Split('\n').Select(line => line.Split('=', 2)).Select(pair =>
            (pair[0], pair[0] == "GIT_TRACE" ? PathOf(pair[1]) : pair[1]))];
        foreach (var version in Samples.Some(["HEAD:site.water", ":site.water", "HEAD:./site.water"], 0))
        {
            var result = WaterscriptProcess.Run(Folder, [], environment, "diff", version, "site.water");
            Assert.Equal(("", 0), (result.Error, result.ExitCode));
        }

        Assert.False(File.Exists(PathOf("traced")));
    }

    [Fact]
    public void An_object_is_not_replaced_by_another()
    {
        Repository();
        Write("late.water", Good.Replace("06:00", "09:00", StringComparison.Ordinal));
        WaterscriptProcess.Shell(Folder, "git replace $(git rev-parse HEAD:site.water) $(git hash-object -w late.water)");
        Assert.Equal(0, Run("diff", "HEAD:site.water", "site.water").ExitCode);
    }

    [Fact]
    public void A_repository_that_hides_in_a_folder_is_not_asked()
    {
        Repository();
        Write("sub/site.water", Good.Replace("06:00", "09:00", StringComparison.Ordinal));
        WaterscriptProcess.Shell(Folder, "git clone -q --bare . sub/inner && mv sub/inner/* sub/ && rm -rf sub/inner");
        var result = WaterscriptProgram.Run(PathOf("sub"), "diff", "HEAD:site.water", "site.water");
        Assert.Contains("bare repository", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    [Theory]
    [InlineData("--output=ran:site.water")]
    [InlineData("-x:site.water")]
    public void A_revision_is_never_an_option(string version)
    {
        Repository();
        var result = Run("diff", "site.water", "--", version);
        Assert.Equal(2, result.ExitCode);
        NothingRan();
        var revision = version.Split(':')[0];
        Assert.Equal($"\"{revision}\" is not a revision",
            Assert.Throws<CommandException>(() => RevisionFolder.Open(version, Surroundings.OfProcess())).Message);
    }

    [Fact]
    public void Whoever_gives_no_answer_is_ended_with_all_that_it_started()
    {
        if (OperatingSystem.IsWindows()) return;
        var git = new GitProgram(Program("slow", "sleep 61.5 & sleep 61.5"), TimeSpan.FromSeconds(0.5), Surroundings.OfProcess());
        var time = Stopwatch.StartNew();
        Assert.Equal("git gave no answer for 0.5 seconds and was ended", Assert.Throws<CommandException>(() => git.Run(1000, "rev-parse")).Message);
        Assert.True(time.Elapsed < TimeSpan.FromSeconds(20));
        Assert.Equal("", WaterscriptProcess.Shell(Folder,
            "for i in /proc/[0-9]*/cmdline; do tr '\\0' ' ' < $i; echo; done 2> /dev/null | grep '^sleep 61.5'").Output);
    }

    [Fact]
    public void Of_an_endless_answer_so_much_is_taken_as_was_asked_for()
    {
        if (OperatingSystem.IsWindows()) return;
        var answer = new GitProgram(Program("endless", "exec yes"), TimeSpan.FromSeconds(20), Surroundings.OfProcess()).Run(1001, "cat-file");
        Assert.Equal((true, 1001), (answer.IsSuccess, answer.Output.Length));
    }

    [Fact]
    public void A_blob_longer_than_any_source_is_over_a_limit()
    {
        Write("site.water", [.. Encoding.UTF8.GetBytes(Good), .. Enumerable.Repeat((byte)'#', 30_000_000)]);
        WaterscriptProcess.Shell(Folder, Commit);
        Write("now.water", Good);
        var result = Run("diff", "HEAD:site.water", "now.water");
        Assert.Contains("[over-limit]", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    [Fact]
    public void What_git_says_is_a_line_of_letters() =>
        Assert.Equal("fatal: a?[31mb?c", GitProgram.Words(Encoding.UTF8.GetBytes("fatal: a\e[31mb\u202ec\n::error::x")));

    private void Repository()
    {
        Write("site.water", Good);
        WaterscriptProcess.Shell(Folder, Commit);
    }

    private string Program(string path, string line = "touch \"$(dirname \"$0\")/ran\" ran")
    {
        var file = Write(path, $"#!/bin/sh\n{line}\n");
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(file, (UnixFileMode)0b111_101_101);
        return file;
    }

    private void NothingRan() => Assert.Empty(Directory.EnumerateFiles(Folder, "ran", SearchOption.AllDirectories));
}
