using System.Diagnostics;
using System.Globalization;
using System.Text;
using Xunit;
using Xunit.Abstractions;

namespace WaterScript.Tests.Cli;

/// <summary>
/// Kills that no program can see coming, at random moments of a write. <c>WATERSCRIPT_KILLS</c> says how many of each, <c>WATERSCRIPT_SEED</c> which moments;
/// what a failure needs to come again is in its message.
/// </summary>
public sealed class KillTests(ITestOutputHelper output) : Workshop
{
    private static readonly int Kills = Number("WATERSCRIPT_KILLS", Samples.OfBatch(Samples.Of(60)));
    private static readonly int Seed = Number("WATERSCRIPT_SEED", 20_260_301);

    [Fact]
    public void Format_loses_no_file() => Kill("format site.water", "site.water", Site("zone   z{0}{{output {0}}}\n"));

    [Fact]
    public void A_fix_loses_no_file() =>
        Kill("check --fix site.water", "site.water", Site("zone z{0} {{ output {0} }}\n", "accept skipped-time because \"the clock change is at night\"\n"));

    [Fact]
    public void An_output_loses_no_file()
    {
        Write("site.water", Good);
        Kill("compile site.water --to csv --days 3000 -o out.csv", "out.csv", "the old timetable\n");
    }

    [Fact]
    public void What_a_stranger_has_beside_it_stays()
    {
        Write("site.water", "zone   lawn{output 1}\n");
        string[] names = [".site.water.waterscript-0123456789abcdeg.tmp", ".site.water.waterscript-0123.tmp", ".other.water.waterscript-0123456789abcdef.tmp",
            ".site.water.tmp"];
        foreach (var name in names) Write(name, "mine");
        Directory.CreateDirectory(PathOf(".site.water.waterscript-00000000000000ff.tmp"));
        if (!OperatingSystem.IsWindows()) WaterscriptProcess.Shell(Folder,
            "mkfifo .site.water.waterscript-00000000000000fe.tmp; ln -s site.water .site.water.waterscript-00000000000000fd.tmp");
        var before = Names();
        Write(".site.water.waterscript-0123456789abcdef.tmp", "left by a kill");
        using (new FileStream(PathOf(".site.water.waterscript-aaaaaaaaaaaaaaaa.tmp"), FileMode.CreateNew, FileAccess.Write, FileShare.None))
        {
            Assert.Equal(0, RunLine("format site.water").ExitCode);
            Assert.Equal([.. before, ".site.water.waterscript-aaaaaaaaaaaaaaaa.tmp"], Names().ToHashSet());
        }

        Assert.Equal(0, RunLine("format site.water").ExitCode);
        Assert.Equal(before, Names());
    }

    /// <summary>Kills a command that turns one text into another, again and again, and looks at what is there.</summary>
    private void Kill(string line, string file, string old)
    {
        Write(file, old);
        var whole = Took(line);
        var made = Read(file);
        Assert.NotEqual(old, made);
        var names = Names();
        var random = new Random(Seed);
        var (runs, killed, left, replaced) = (0, 0, 0, 0);
        while (killed < Kills)
        {
            Write(file, old);
            runs++;
            var isKilled = KillAfter(whole * random.NextDouble(), line);
            if (isKilled) killed++;
            var now = Read(file);
            var why = string.Create(CultureInfo.InvariantCulture, $"run {runs} of seed {Seed}: {file} has {now.Length} characters");
            Assert.True(now == old || now == made, why);
            if (Names().Length > names.Length) left++;
            if (now == made) replaced++;
            if (isKilled) RunLine(line);
            else whole = (whole + Took(line)) / 2; // A machine has faster and slower minutes.
            Assert.True(Read(file) == made, why + ", and not what it should after the next run");
            Assert.Equal(names, Names());
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{line}: {runs} runs, {killed} of them killed, {left} left a file that the next run removed, {replaced} had written; lost: none"));
    }

    private TimeSpan Took(string line)
    {
        var time = Stopwatch.StartNew();
        WaterscriptProcess.Run(Folder, line.Split(' '));
        return time.Elapsed;
    }

    private bool KillAfter(TimeSpan delay, string line)
    {
        using var process = Process.Start(new ProcessStartInfo(WaterscriptProcess.Path,
            line.Split(' '))
        { WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var isEnded = process.WaitForExit(delay);
        process.Kill();
        process.WaitForExit();
        return !isEnded;
    }

    /// <summary>A site that is long enough to take a while to write.</summary>
    private static string Site(string zone, string end = "")
    {
        var text = new StringBuilder("site s { timezone Europe/Lisbon; effective 2026-03-01 }\n");
        for (var number = 1; number <= 300; number++) text.AppendFormat(CultureInfo.InvariantCulture, zone, number);
        return text.Append("schedule a { on sun; start at 06:00; steps { water z1 for 10 min } }\n").Append(end).ToString();
    }

    private static int Number(string name, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : otherwise;
}
