using Xunit.Abstractions;

namespace WaterScript.Mutation.Judging;

/// <summary>Keeps the tests that are found.</summary>
internal sealed class Discovery : IMessageSink
{
    private readonly TaskCompletionSource _end = new();
    private readonly List<ITestCase> _cases = [];

    public IReadOnlyList<ITestCase> Cases
    {
        get
        {
            _end.Task.Wait();
            return _cases;
        }
    }

    public bool OnMessage(IMessageSinkMessage message)
    {
        if (message is ITestCaseDiscoveryMessage found) _cases.Add(found.TestCase);
        if (message is IDiscoveryCompleteMessage) _end.TrySetResult();
        return true;
    }
}
