using Xunit.Abstractions;

namespace WaterScript.Mutation.Judging;

/// <summary>How tests are found and run: each row of a theory by itself, one after the other.</summary>
internal sealed class TestOptions : ITestFrameworkDiscoveryOptions, ITestFrameworkExecutionOptions
{
    private readonly Dictionary<string, object?> _values = new()
    {
        ["xunit.discovery.PreEnumerateTheories"] = true,
        ["xunit.discovery.SynchronousMessageReporting"] = true,
        ["xunit.execution.DisableParallelization"] = true,
        ["xunit.execution.SynchronousMessageReporting"] = true,
    };

    public TValue GetValue<TValue>(string name) => _values.TryGetValue(name, out var value) && value is not null ? (TValue)value : default!;

    public void SetValue<TValue>(string name, TValue value) => _values[name] = value;
}
