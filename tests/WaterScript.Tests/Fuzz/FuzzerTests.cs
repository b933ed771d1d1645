using WaterScript.Fuzz;
using WaterScript.Fuzz.Inputs;
using Xunit;

namespace WaterScript.Tests.Fuzz;

/// <summary>The fuzzer itself: its inputs follow from the seed, and what fails is made small.</summary>
public sealed class FuzzerTests
{
    [Fact]
    public void An_input_is_the_same_whatever_was_made_before_it()
    {
        var first = Fuzzer.InputsOf(7, 0, 60).Select(Shown).ToList();
        var others = Enumerable.Range(0, 60).Reverse().Select(number => Shown(Fuzzer.InputsOf(7, number, 1).Single())).Reverse();
        Assert.Equal(first, others);
        Assert.NotEqual(first, Fuzzer.InputsOf(8, 0, 60).Select(Shown));
    }

    [Fact]
    public void A_failing_input_is_made_small()
    {
        var input = new FuzzInput(SiteFiles.Of("a", string.Concat(Enumerable.Range(0, 200).Select(number => $"line {number} {{ x }}\n"))),
            SiteFiles.Of("b", ""), 0, "");
        var small = Fuzzer.Shrink(input, other =>
            other.Files.RootText.Contains("137", StringComparison.Ordinal) && other.Files.RootText.Contains('}', StringComparison.Ordinal) ? "same"
            : null, "same");
        Assert.Equal("137}", small.Files.RootText);
    }

    [Fact]
    public void A_case_is_read_as_it_was_written()
    {
        var folder = Directory.CreateTempSubdirectory().FullName;
        var site = SiteFiles.Of("one", "include \"parts/b.water\"\n").With("parts/b.water", [0xFF, 0x7B]);
        CaseFolder.Write(folder, site);
        CaseFolder.Write(folder, SiteFiles.Of("two", [0x00]));
        var read = CaseFolder.Read(folder).ToList();
        Assert.Equal(["one", "two"], read.Select(one => one.Name));
        Assert.Equal([0xFF, 0x7B], read[0].Files["parts/b.water"]);
        Assert.Equal([0x00], read[1].Files[read[1].Root]);
        Directory.Delete(folder, recursive: true);
    }

    private static string Shown(FuzzInput input) =>
        $"{input.Recipe} {input.Salt} {string.Join('|', input.Files.Files.Select(file => file.Key + Convert.ToHexString(file.Value)))}";
}
