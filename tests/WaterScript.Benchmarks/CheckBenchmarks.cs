using BenchmarkDotNet.Attributes;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Benchmarks;

/// <summary>All checks of a site of many controllers over two years; beside it, the same years calculated and looked at by nobody.</summary>
[MemoryDiagnoser]
public class CheckBenchmarks
{
    private readonly Site _site = LargeSite.Read(LargeSite.Estate(controllers: 30));

    /// <summary>The switchings alone.</summary>
    [Benchmark(Baseline = true)]
    public long Switchings()
    {
        long count = 0;
        foreach (var _ in Timetable.Of(_site, CheckHorizon.Of(_site)).Switchings()) count++;
        return count;
    }

    /// <summary>Every rule.</summary>
    [Benchmark]
    public int Check() => Linter.Check(_site, CheckHorizon.Of(_site)).Findings.Length;
}
