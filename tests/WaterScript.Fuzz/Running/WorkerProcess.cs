using System.Diagnostics;
using System.Globalization;

namespace WaterScript.Fuzz.Running;

/// <summary>
/// A worker in a process of its own, so that an input for which it never ends, or which takes all memory or the whole stack, ends the worker and not the run.
/// </summary>
internal sealed class WorkerProcess : IDisposable
{
    /// <summary>
    /// Processor time that one input may take in all stages: a site may have 20,000 passes on a single date, each of them read back by slow judges.
    /// </summary>
    private static readonly TimeSpan MostTime = TimeSpan.FromSeconds(30);

    /// <summary>Time by the clock that one input may take, for one that waits and computes nothing; shrinking is part of it.</summary>
    private static readonly TimeSpan MostWait = TimeSpan.FromMinutes(4);

    private const long MostMemory = 2_000_000_000;

    private readonly Process _process;
    private readonly Action<string> _tell;
    private readonly Lock _lock = new();
    private long _index;
    private bool _isShrinking;
    private TimeSpan _timeBefore;
    private long _began = Stopwatch.GetTimestamp();

    private WorkerProcess(Process process, Action<string> tell, long first) => (_process, _tell, _index) = (process, tell, first);

    /// <summary>The input that it is at.</summary>
    public long Index
    {
        get
        {
            lock (_lock) return _index;
        }
    }

    /// <summary>Starts one.</summary>
    /// <param name="arguments">What it is reported.</param>
    /// <param name="first">Its first input.</param>
    /// <param name="tell">Gets what it says, other than where it is.</param>
    public static WorkerProcess Start(IEnumerable<string> arguments, long first, Action<string> tell)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true, RedirectStandardError = true };
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet") start.ArgumentList.Add(typeof(WorkerProcess).Assembly.Location);
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        var worker = new WorkerProcess(Process.Start(start)!, tell, first);
        worker._process.OutputDataReceived += (_, line) => worker.Take(line.Data);
        worker._process.ErrorDataReceived += (_, _) => { };
        worker._process.BeginOutputReadLine();
        worker._process.BeginErrorReadLine();
        return worker;
    }

    /// <summary>Waits for its end.</summary>
    /// <returns>How its last input failed; null where it came to its own end.</returns>
    public string? Wait()
    {
        while (!_process.WaitForExit(TimeSpan.FromMilliseconds(100)))
        {
            if (Excess() is not { } excess) continue;
            _process.Kill();
            _process.WaitForExit();
            return excess;
        }

        _process.WaitForExit();
        return _process.ExitCode == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"all stages: the process ends with {_process.ExitCode}");
    }

    /// <inheritdoc/>
    public void Dispose() => _process.Dispose();

    private string? Excess()
    {
        lock (_lock)
        {
            _process.Refresh();
            if (_process.HasExited) return null;
            if (_process.WorkingSet64 > MostMemory) return "all stages: more than 2 GB of memory";
            if (!_isShrinking && _process.TotalProcessorTime - _timeBefore > MostTime) return "all stages: more than 30 s of processor time";
            return Stopwatch.GetElapsedTime(_began) > MostWait ? "all stages: no end" : null;
        }
    }

    private void Take(string? line)
    {
        if (string.IsNullOrEmpty(line)) return;
        if (line[0] == Message.Shrinks)
        {
            lock (_lock) _isShrinking = true;
        }

        if (line[0] != Message.Begins)
        {
            _tell(line);
            return;
        }

        lock (_lock)
        {
            _index = long.Parse(line.AsSpan(1), CultureInfo.InvariantCulture);
            _isShrinking = false;
            _began = Stopwatch.GetTimestamp();
            _process.Refresh();
            if (!_process.HasExited) _timeBefore = _process.TotalProcessorTime;
        }
    }
}
