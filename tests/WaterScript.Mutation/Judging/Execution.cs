using Xunit.Abstractions;

namespace WaterScript.Mutation.Judging;

/// <summary>Watches tests that run, and stops them at the first that fails or when they have taken too long.</summary>
internal sealed class Execution : IMessageSink
{
    /// <summary>How long tests may take to end once they are stopped, in seconds of processor time, and how long they may sleep.</summary>
    private const double Grace = 5, LongestSleep = 120;

    private readonly TaskCompletionSource _end = new();
    private volatile string? _running;

    /// <summary>The test that failed, or that was running when it took too long; null where all passed.</summary>
    public string? Failed { get; private set; }

    public bool OnMessage(IMessageSinkMessage message)
    {
        switch (message)
        {
            case ITestCaseStarting starting:
                _running = starting.TestCase.UniqueID;
                break;
            case ITestFailed failed:
                Failed ??= failed.TestCase.UniqueID;
                break;
            case IErrorMessage or ITestClassCleanupFailure or ITestCleanupFailure or ITestCollectionCleanupFailure:
                Failed ??= _running;
                break;
            case ITestAssemblyFinished:
                _end.TrySetResult();
                break;
        }

        return Failed is null;
    }

    /// <summary>Waits for the end; false where there is none.</summary>
    /// <param name="seconds">Seconds of processor time after which it is stopped: other programs slow nothing down.</param>
    public bool WaitForEnd(double seconds)
    {
        if (IsFinishedWithin(seconds)) return true;
        Failed ??= _running;
        Mutant.IsOver = true;
        var isFinished = IsFinishedWithin(Grace);
        Mutant.IsOver = false;
        return isFinished;
    }

    private bool IsFinishedWithin(double seconds)
    {
        var processor = Environment.CpuUsage.TotalTime.TotalSeconds + seconds;
        var clock = Environment.TickCount64 + (long)(1000 * Math.Max(seconds * 20, LongestSleep));
        while (!_end.Task.Wait(100))
            if (Environment.CpuUsage.TotalTime.TotalSeconds > processor || Environment.TickCount64 > clock) return false;
        return true;
    }
}
