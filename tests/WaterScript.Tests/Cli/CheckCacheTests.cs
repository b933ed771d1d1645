using NodaTime;
using WaterScript.Binding;
using WaterScript.Calendars.TimeZones;
using WaterScript.Cli.Files.Caching;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Keeping;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A check with a cache says what one without says, whatever is in the cache.</summary>
public sealed class CheckCacheTests : Workshop
{
    /// <summary>A garden with a warning that has places, times and a fix, and one that is accepted.</summary>
    private const string Found = """
        site garden "Garden" { timezone Europe/Lisbon; location 38.7 N 9.1 W; effective 2026-03-01 }
        include "parts/zones.water"
        schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }
        schedule noon { every day; start at 06:05; steps { water lawn for 12 min } }
        accept clock-far-from-sun because "measured"

        """;

    private const string Parts = """
        supply well { flow 10 L/min }
        zone lawn { output 1; flow 8 L/min; area 60 m2 }
        zone beds { output 2; flow 8 L/min }

        """;

    public static TheoryData<string> Reports =>
    [
        "", "--all --show-accepted --missing", "--strict --quiet", "--report json --show-accepted", "--report sarif --show-accepted", "--report github",
        "--rule flow-over-supply", "--from 2027-01-01", "--report json --from 2027-01-01",
    ];

    [Theory]
    [MemberData(nameof(Reports))]
    public void Reports_are_those_without_it(string options)
    {
        WriteExamples();
        var without = RunLine($"check {options} sites");
        Assert.Equal(without, RunLine($"check {options} --cache cache sites"));
        Assert.NotEmpty(Entries());
        Assert.Equal(without, RunLine($"check {options} --cache cache sites"));
    }

    /// <summary>Each case of a rule has findings of it, with all that such a finding may have.</summary>
    [Fact]
    public void So_they_are_for_the_cases_of_all_rules()
    {
        foreach (var file in Repository.FilesUnder("tests/Cases/rules").Where(file => file.EndsWith(".water", StringComparison.Ordinal)))
            Write(Path.Combine("sites", file["tests/Cases/rules/".Length..]), File.ReadAllBytes(Path.Combine(Repository.Root, file)));
        foreach (var line in new[] { "check --report json --show-accepted", "check --report sarif --show-accepted", "check --all --show-accepted --missing" })
        {
            var without = RunLine($"{line} sites");
            Assert.Equal(without, RunLine($"{line} --cache cache sites"));
            Assert.Equal(without, RunLine($"{line} --cache cache sites"));
        }

        Assert.InRange(Entries().Length, 200, int.MaxValue);
    }

    [Fact]
    public void What_is_known_is_not_checked_again()
    {
        var reading = ReadGarden();
        var cache = Cache();
        var checks = 0;
        CheckedSite Check()
        {
            checks++;
            return CheckedSite.Of("garden.water", reading);
        }

        var first = cache.Of("garden.water", reading, from: null, Check);
        var second = cache.Of("garden.water", ReadGarden(), from: null, Check);
        Assert.Equal(1, checks);
        Assert.Equal(first.Findings.Select(finding => finding.Heading), second.Findings.Select(finding => finding.Heading));
        Assert.Equal(first.Lint!.Work, second.Lint!.Work);
        cache.Of("garden.water", reading, new LocalDate(2027, 1, 1), Check);
        cache.Of("other.water", reading, from: null, Check);
        cache.Of("garden.water", ReadGarden(Found + " "), from: null, Check);
        cache.Of("garden.water", ReadGarden(Found, Parts + " "), from: null, Check);
        Assert.Equal(5, checks);
    }

    [Fact]
    public void Another_program_has_other_keys()
    {
        var reading = ReadGarden();
        Assert.NotEqual(CheckKey.Of("1", "garden.water", reading, from: null), CheckKey.Of("2", "garden.water", reading, from: null));
        Assert.Equal(CheckKey.Of("1", "garden.water", reading, from: null), CheckKey.Of("1", "garden.water", ReadGarden(), from: null));
    }

    [Fact]
    public void A_change_in_an_included_file_counts()
    {
        WriteGarden();
        RunLine("check --cache cache garden.water");
        Write("parts/zones.water", Parts.Replace("flow 10 L/min", "flow 30 L/min", StringComparison.Ordinal));
        var without = RunLine("check garden.water");
        Assert.Equal(without, RunLine("check --cache cache garden.water"));
        Assert.Equal(without, RunLine("check --cache cache garden.water"));
        Assert.Equal(2, Entries().Length);
    }

    [Fact]
    public void Damaged_files_are_of_no_use_and_do_no_harm()
    {
        WriteGarden();
        var without = RunLine("check --report json garden.water");
        Assert.Equal(without, RunLine("check --report json --cache cache garden.water"));
        var entry = Assert.Single(Entries());
        var whole = File.ReadAllBytes(entry);
        var random = new Random(24);
        for (var each = 0; each < Samples.Of(150); each++)
        {
            File.WriteAllBytes(entry, Damaged(whole, random, each));
            Assert.Equal(without, RunLine("check --report json --cache cache garden.water"));
            Assert.Equal(whole, File.ReadAllBytes(entry));
        }
    }

    [Fact]
    public void Whatever_is_kept_under_a_right_hash_gives_no_exception()
    {
        var reading = ReadGarden();
        var kept = KeptCheck.Write(CheckedSite.Of("garden.water", reading))!;
        Assert.NotNull(KeptCheck.Read(kept, "garden.water", reading));
        var random = new Random(25);
        var refused = 0;
        for (var each = 0; each < Samples.Of(20_000); each++)
        {
            if (KeptCheck.Read(Damaged(kept, random, each), "garden.water", reading) is null) refused++;
        }

        Assert.InRange(refused, Samples.Of(1_000), Samples.Of(20_000));
    }

    [Fact]
    public void What_cannot_be_kept_is_said_and_changes_nothing()
    {
        WriteGarden();
        Write("file", "not a folder");
        var without = RunLine("check garden.water");
        var refused = RunLine("check --cache file garden.water");
        Assert.Equal((without.Output, without.ExitCode), (refused.Output, refused.ExitCode));
        Assert.Contains("Not all could be kept in file: ", refused.Error, StringComparison.Ordinal);
        Assert.Equal("not a folder", Read("file"));
        RunLine("check --cache cache garden.water");
        var entry = Assert.Single(Entries());
        File.Delete(entry);
        Directory.CreateDirectory(Path.Combine(entry, "in the way"));
        Assert.Equal(without.Output, RunLine("check --cache cache garden.water").Output);
        Assert.Equal(2, Run("check", "--cache", "", "garden.water").ExitCode);
    }

    [Fact]
    public async Task Several_may_use_it_at_once()
    {
        WriteExamples();
        var without = RunLine("check --report json sites");
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => RunLine("check --report json --cache cache sites"))));
        Assert.All(answers, answer => Assert.Equal(without, answer));
        Assert.Empty(Directory.EnumerateFiles(PathOf("cache"), "*.tmp", SearchOption.AllDirectories));
    }

    [Fact]
    public void The_oldest_leave()
    {
        WriteGarden();
        RunLine("check --cache cache garden.water");
        var entry = Assert.Single(Entries());
        File.Delete(entry);
        var part = Path.GetDirectoryName(entry)!;
        for (var i = 0; i < CheckCache.MostFiles + 50; i++)
        {
            var old = Path.Combine(part, $"{i}.check");
            File.WriteAllBytes(old, []);
            File.SetLastWriteTimeUtc(old, new DateTime(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddSeconds(i));
        }

        File.WriteAllText(Path.Combine(part, "notes.txt"), "somebody's own");
        RunLine("check --cache cache garden.water");
        Assert.Equal(CheckCache.MostFiles, Entries().Length);
        Assert.True(File.Exists(entry));
        Assert.False(File.Exists(Path.Combine(part, "0.check")));
        Assert.True(File.Exists(Path.Combine(part, "notes.txt")));
    }

    /// <summary>Cut off, with other bytes, with more, of nothing.</summary>
    private static byte[] Damaged(byte[] whole, Random random, int each)
    {
        var at = random.Next(whole.Length);
        switch (each % 5)
        {
            case 0:
                return whole[..at];
            case 1:
                var more = new byte[1 + (each % 40)];
                random.NextBytes(more);
                return [.. whole, .. more];
            case 2:
                return each % 2 == 0 ? [] : [.. whole[..at], .. whole[(at + 1)..]];
            default:
                var other = (byte[])whole.Clone();
                for (var i = 0; i <= each % 4; i++) other[random.Next(other.Length)] ^= (byte)random.Next(1, 256);
                return other;
        }
    }

    private static SiteReading ReadGarden(string garden = Found, string parts = Parts)
    {
        var files = new MemoryFiles(new Dictionary<string, string> { ["parts/zones.water"] = parts });
        return SiteReader.Read(SourceText.From("garden.water", garden), "garden.water", files, PackagedTimeZones.Provider);
    }

    private CheckCache Cache() => new(PathOf("cache"), new WaterScript.Cli.Terminal(
        WaterScript.Cli.Files.Surroundings.OfProcess(), () => Stream.Null, Stream.Null, TextWriter.Null, TextWriter.Null, textHasColour: false,
        errorHasColour: false));

    private string[] Entries() => Directory.Exists(PathOf("cache"))
        ? [.. Directory.EnumerateFiles(PathOf("cache"), "*.check", SearchOption.AllDirectories)]
        : [];

    private void WriteGarden()
    {
        Write("garden.water", Found);
        Write("parts/zones.water", Parts);
    }

    private void WriteExamples()
    {
        foreach (var file in Repository.ExampleFiles)
            Write(file.Replace("examples/", "sites/", StringComparison.Ordinal), File.ReadAllBytes(Path.Combine(Repository.Root, file)));
        Write("sites/wrong.water", Good + "zone lawn { output 3 }\n");
    }
}
