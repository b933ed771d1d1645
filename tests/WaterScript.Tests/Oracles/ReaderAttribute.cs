using System.Reflection;
using Xunit.Sdk;

namespace WaterScript.Tests.Oracles;

/// <summary>Gives a test the name of one reader; skips it, and says so, where the reader is not installed.</summary>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
internal sealed class ReaderAttribute : DataAttribute
{
    private readonly string _name;

    public ReaderAttribute(string name)
    {
        _name = name;
        Skip = Reader.Named(name).Absence;
    }

    public override IEnumerable<object[]> GetData(MethodInfo testMethod) => [[_name]];
}
