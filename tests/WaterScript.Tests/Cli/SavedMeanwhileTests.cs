using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What an editor saves while a command is about to write the same file is never lost, and the command says that it stepped back.</summary>
public sealed class SavedMeanwhileTests : Workshop
{
    private const string Stepped = "was changed by another program after it was read; it was left as it is, so run the command again";
    private static readonly int Rounds = Samples.Of(300);

    [Theory]
    [InlineData("format site.water")]
    [InlineData("check --fix site.water")]
    public async Task A_save_at_any_moment_stays(string line)
    {
        var random = new Random(20_260_301);
        for (var round = 0; round < Rounds; round++)
        {
            Write("site.water", Text(0, "lawm"));
            var saved = Text(round + 1, "lawm");
            var delay = random.Next(0, 8_000);
            var command = Task.Run(() => RunLine(line));
            Thread.Sleep(TimeSpan.FromMicroseconds(delay));
            Save(saved);
            await command;
            var site = string.Create(CultureInfo.InvariantCulture, $"\"Save {round + 1}\"");
            Assert.True(Read("site.water").Contains(site, StringComparison.Ordinal), $"round {round}: a save was lost");
        }
    }

    /// <summary>A command can be done before an editor saves, or between two saves; of many, some are not.</summary>
    [Theory]
    [InlineData("format site.water")]
    [InlineData("check --fix site.water")]
    public async Task A_command_that_steps_back_says_so(string line)
    {
        const int most = 1_000;
        var steppedBack = false;
        for (var round = 0; round < most && !steppedBack; round++)
        {
            Write("site.water", Text(0, "lawm"));
            var command = Task.Run(() => RunLine(line));
            var saves = 0;
            while (!command.IsCompleted) Save(Text(++saves, "lawm"));
            var result = await command;
            steppedBack = result.ExitCode == 2;
            if (!steppedBack) continue;
            Assert.Equal($"waterscript: site.water {Stepped}\n", result.Error);
            Assert.Equal(Text(saves, "lawm"), Read("site.water"));
            Assert.Equal(["site.water"], Names());
        }

        Assert.True(steppedBack, "no command met a save");
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("site x\n")]
    [InlineData("site x \n\n")]
    [InlineData("\uFEFFsite x \n")]
    public void A_file_is_replaced_only_if_it_holds_what_was_read(string? since)
    {
        var surroundings = new Surroundings(Folder, _ => null, SystemClock.Instance);
        var (read, text) = (SourceText.From("site.water", "site x \n"), SourceText.From("site.water", "site y\n"));
        Write("site.water", read.Text);
        if (since is null) File.Delete(PathOf("site.water"));
        else Write("site.water", since);
        var problem = Assert.Throws<CommandException>(() => FileContent.Write("site.water", read, text, surroundings));
        Assert.Equal($"site.water {Stepped}", problem.Message);
        Assert.Equal(since is null ? [] : ["site.water"], Names());
        if (since is null) return;
        Assert.Equal(Encoding.UTF8.GetBytes(since), File.ReadAllBytes(PathOf("site.water")));
        Write("site.water", read.Text);
        FileContent.Write("site.water", read, text, surroundings);
        Assert.Equal("site y\n", Read("site.water"));
    }

    /// <summary>A site that a layout and a fix change.</summary>
    private static string Text(int number, string zone) => Good.Replace("\"Garden\"", string.Create(CultureInfo.InvariantCulture, $"\"Save {number}\""),
        StringComparison.Ordinal).Replace("water lawn,", $"water   {zone},", StringComparison.Ordinal);

    /// <summary>As most editors save: beside the file, then in its place.</summary>
    private void Save(string text)
    {
        Write("site.water.new", text);
        File.Move(PathOf("site.water.new"), PathOf("site.water"), overwrite: true);
    }
}
