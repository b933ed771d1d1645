using System.Reflection;
using Xunit.Sdk;

namespace WaterScript.Tests.Oracles;

/// <summary>Gives a test the name of one reader; see <see cref="Outside"/>.</summary>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
internal sealed class ReaderAttribute : DataAttribute
{
    private readonly string _name;

    public ReaderAttribute(string name)
    {
        _name = name;
        Skip = Reader.Absence;
    }

    /// <summary>The reason stands in the place of the name, because a skipped test is listed with its arguments and without its reason.</summary>
    public override IEnumerable<object[]> GetData(MethodInfo testMethod) => [[Skip ?? _name]];
}
