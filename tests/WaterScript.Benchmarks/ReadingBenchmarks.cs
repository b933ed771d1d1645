using BenchmarkDotNet.Attributes;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Benchmarks;

/// <summary>Reading a source of about 100,000 lines; beside it, a YAML library that reads as many lines.</summary>
[MemoryDiagnoser]
public class ReadingBenchmarks
{
    private readonly string _text = LargeSite.Text(zones: 9_800);
    private readonly string _yaml = string.Concat(Enumerable.Range(0, 100_000).Select(i => $"key{i}: [a, b, {i}]\n"));

    /// <summary>Text to tree.</summary>
    [Benchmark(Baseline = true)]
    public object Parse() => Syntax.Parser.Parse(SourceText.From("large.water", _text), new FindingList());

    /// <summary>Text to site.</summary>
    [Benchmark]
    public object ParseAndBind() => LargeSite.Read(_text);

    /// <summary>YAML to events, by YamlDotNet.</summary>
    [Benchmark]
    public int EventsOfAsManyLinesByAYamlLibrary()
    {
        var parser = new YamlDotNet.Core.Parser(new StringReader(_yaml));
        var events = 0;
        while (parser.MoveNext()) events++;
        return events;
    }

    /// <summary>How many lines that is.</summary>
    [GlobalSetup]
    public void Count() => Console.WriteLine($"// {_text.Count(c => c == '\n')} lines");
}
