using System.Reflection;
using Microsoft.CodeAnalysis;

namespace WaterScript.Mutation.Rewriting;

/// <summary>Generators of source, those of the SDK, from where they lie.</summary>
internal sealed class GeneratorLoader : IAnalyzerAssemblyLoader
{
    public static GeneratorLoader Instance { get; } = new();

    public void AddDependencyLocation(string fullPath)
    {
    }

    public Assembly LoadFromPath(string fullPath) => Assembly.LoadFrom(fullPath);
}
