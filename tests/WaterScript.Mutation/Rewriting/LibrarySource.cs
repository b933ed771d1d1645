using System.Text.Json;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Diagnostics;
using WaterScript.Mutation.Driving;

namespace WaterScript.Mutation.Rewriting;

/// <summary>The library as the build compiles it: the build itself says with which arguments.</summary>
internal static class LibrarySource
{
    private const string Project = "src/WaterScript/WaterScript.csproj";

    private static readonly string[] Question =
    [
        "msbuild", Project, "-t:Compile", "-p:DesignTimeBuild=true", "-p:BuildingInsideVisualStudio=true", "-p:SkipCompilerExecution=true",
        "-p:ProvideCommandLineArgs=true", "-getItem:CscCommandLineArgs",
    ];

    /// <summary>What is compiled, and the resources that go into it.</summary>
    /// <param name="tree">A copy of the repository that has been built.</param>
    public static (CSharpCompilation Compilation, IReadOnlyList<ResourceDescription> Resources) Read(string tree)
    {
        using var answer = JsonDocument.Parse(Commands.Ask(tree, "dotnet", Question));
        var words = answer.RootElement.GetProperty("Items").GetProperty("CscCommandLineArgs").EnumerateArray()
            .Select(item => item.GetProperty("Identity").GetString()!);
        var folder = Path.GetDirectoryName(Path.Combine(tree, Project))!;
        var arguments = CSharpCommandLineParser.Default.Parse(words, folder, sdkDirectory: null);
        // Members by extension are in the language since the version after that of the package.
        var parsing = arguments.ParseOptions.WithLanguageVersion(LanguageVersion.Preview);
        var trees = arguments.SourceFiles.Select(file => CSharpSyntaxTree.ParseText(File.ReadAllText(file.Path), parsing, file.Path));
        var references = arguments.MetadataReferences.Select(reference => MetadataReference.CreateFromFile(reference.Reference))
            .Append(MetadataReference.CreateFromFile(typeof(Mutant).Assembly.Location));
        var compilation = CSharpCompilation.Create(arguments.CompilationName, trees, references, arguments.CompilationOptions);
        var generators = arguments.AnalyzerReferences
            .SelectMany(reference => new AnalyzerFileReference(reference.FilePath, GeneratorLoader.Instance).GetGenerators(LanguageNames.CSharp));
        CSharpGeneratorDriver.Create(generators, parseOptions: parsing).RunGeneratorsAndUpdateCompilation(compilation, out var complete, out _);
        return ((CSharpCompilation)complete, [.. arguments.ManifestResources]);
    }
}
