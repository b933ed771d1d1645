using System.Diagnostics;
using System.Globalization;
using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Stages;

namespace WaterScript.Fuzz.Running;

/// <summary>Starts the workers, starts one anew when an input has ended it, and gathers what they say.</summary>
internal sealed class Supervisor(Options options, TextWriter output)
{
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private readonly Lock _lock = new();
    private readonly StageCounts _counts = new();
    private readonly Dictionary<string, long> _found = new(StringComparer.Ordinal);
    private readonly Lazy<InputMaker> _maker = new(() => new InputMaker(Corpus.Read(), options.Seed));
    private long _inputs;

    /// <summary>Runs to the end.</summary>
    /// <returns>Whether nothing was found.</returns>
    public bool Run()
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"seed {options.Seed}, {options.Workers} workers"));
        Task.WaitAll([.. Enumerable.Range(0, options.Workers)
            .Select(worker => Task.Factory.StartNew(() => Run(worker), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))]);
        var seconds = _watch.Elapsed.TotalSeconds;
        output.Write(string.Create(CultureInfo.InvariantCulture, $"{_inputs} inputs in {seconds:0} s, {_inputs / seconds:0.0} a second\n{_counts.ToTable()}"));
        foreach (var (signature, count) in _found.OrderByDescending(found =>
            found.Value)) output.Write(string.Create(CultureInfo.InvariantCulture, $"  {count,8} times  {signature}\n"));
        output.WriteLine(_found.Count == 0 ? "nothing found" : string.Create(CultureInfo.InvariantCulture, $"{_found.Count} different failures"));
        return _found.Count == 0;
    }

    private void Run(int worker)
    {
        long next = worker;
        while (next < options.Count && options.Minutes - _watch.Elapsed.TotalMinutes is > 0 and var left)
        {
            using var process = WorkerProcess.Start(options.ForWorker(worker, next, left), next, Take);
            if (process.Wait() is not { } end) return;
            if (Again(worker, process.Index) is { } again) Lost(process.Index, again);
            else Passed(process.Index, end);
            next = process.Index + options.Workers;
        }
    }

    /// <summary>
    /// Runs an input that ended its worker once more, in a process of its own: on a busy machine a worker can be ended for what the machine did.
    /// </summary>
    /// <returns>How it ends this time; null where it passes.</returns>
    private string? Again(int worker, long index)
    {
        using var process = WorkerProcess.Start(options.ForOneInput(worker, index), index, line =>
        {
            if (line[0] != Message.Counts) Take(line);
        });
        return process.Wait();
    }

    private void Passed(long index, string end)
    {
        lock (_lock)
        {
            output.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"[{_watch.Elapsed:hh\\:mm\\:ss}] input {index} passes when it runs again, after: {end}"));
            output.Flush();
        }
    }

    /// <summary>An input that ended its worker is kept as it is.</summary>
    private void Lost(long index, string signature)
    {
        FuzzInput input;
        lock (_lock) input = _maker.Value.Make(index);
        var path = _found.GetValueOrDefault(signature) >= MostKept ? null
            : CaseFolder.Write(options.Cases, Worker.CaseOf(input, signature, options.Seed, index));
        Report(index, signature, path);
    }

    /// <summary>Inputs of one kind of loss that are kept; what they have in common is not known.</summary>
    private const int MostKept = 5;

    private void Take(string line)
    {
        if (line[0] == Message.Counts)
        {
            lock (_lock)
            {
                _counts.Add(line[1..]);
                _inputs = _counts.Inputs;
            }
        }
        else if (line[0] != Message.Shrinks)
        {
            var parts = line[1..].Split('\t');
            Report(long.Parse(parts[0], CultureInfo.InvariantCulture), parts[1], parts.ElementAtOrDefault(2));
        }
    }

    private void Report(long index, string signature, string? path)
    {
        lock (_lock)
        {
            _found[signature] = _found.GetValueOrDefault(signature) + 1;
            if (path is null) return;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"[{_watch.Elapsed:hh\\:mm\\:ss}] {signature}\n  --seed {options.Seed} --input {index}\n  {path}"));
            output.Flush();
        }
    }
}
