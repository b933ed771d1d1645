using System.Reflection;
using System.Runtime.Loader;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace WaterScript.Mutation.Judging;

/// <summary>The tests, in this process, with the mutated library in place of the one that they were built with.</summary>
internal sealed class TestHost : IDisposable
{
    private const string Library = "WaterScript.Compiler";

    private readonly XunitTestFramework _framework = new(new Discovery());
    private readonly AssemblyName _name;
    private readonly ITestFrameworkExecutor _executor;

    /// <param name="tests">The assembly of the tests.</param>
    /// <param name="library">The mutated library.</param>
    public TestHost(string tests, string library)
    {
        var folder = Path.GetDirectoryName(tests)!;
        // The tests look for the repository above their own folder.
        AppContext.SetData("APP_CONTEXT_BASE_DIRECTORY", folder + "/");
        AssemblyLoadContext.Default.Resolving += (context, name) =>
        {
            var path = name.Name == Library ? library : Path.Combine(folder, name.Name + ".dll");
            return File.Exists(path) ? context.LoadFromAssemblyPath(path) : null;
        };
        _name = AssemblyName.GetAssemblyName(tests);
        _executor = _framework.GetExecutor(_name);
    }

    /// <summary>All tests: what each is called, and how it is asked for.</summary>
    public IReadOnlyList<(string Class, string Name, string Key)> Discover()
    {
        var discovery = new Discovery();
        using var discoverer = _framework.GetDiscoverer(new ReflectionAssemblyInfo(Assembly.Load(_name)));
        discoverer.Find(includeSourceInformation: false, discovery, new TestOptions());
        return [.. discovery.Cases.Select(found => (found.TestMethod.TestClass.Class.Name, found.DisplayName, discoverer.Serialize(found)))];
    }

    /// <summary>A test that was found, maybe by another process.</summary>
    public ITestCase Find(string key) => _executor.Deserialize(key);

    /// <summary>Runs tests: which failed, if one did, and whether they came to an end.</summary>
    /// <param name="cases">The tests.</param>
    /// <param name="seconds">How long they may take.</param>
    public (string? Failed, bool IsFinished) Run(IReadOnlyList<ITestCase> cases, double seconds)
    {
        var execution = new Execution();
        // On a thread of its own: tests run on the one that asks for them, and one that never ends would hold it.
        Task.Run(() => _executor.RunTests(cases, execution, new TestOptions()));
        var isFinished = execution.WaitForEnd(seconds);
        return (execution.Failed, isFinished);
    }

    public void Dispose()
    {
        _executor.Dispose();
        _framework.Dispose();
    }
}
