using System.Runtime.InteropServices;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>A program that a page shows: compiled as a new project compiles it, without a warning, and run in a folder.</summary>
internal static class PageProgram
{
    private const string ImplicitUsings =
        "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; "
        + "global using System.Net.Http; global using System.Threading; global using System.Threading.Tasks;";

    private const string Name = "program";

    /// <summary>Compiles it into the folder, and runs it there.</summary>
    public static WaterscriptProcess.Result Run(string program, string folder)
    {
        foreach (var library in Libraries()) File.Copy(library, Path.Combine(folder, Path.GetFileName(library)), overwrite: true);
        File.Copy(Path.Combine(AppContext.BaseDirectory, "WaterScript.Tests.runtimeconfig.json"), Path.Combine(folder, $"{Name}.runtimeconfig.json"), true);
        Compile(program, Path.Combine(folder, $"{Name}.dll"));
        return WaterscriptProcess.Start(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"), folder, [], [], [$"{Name}.dll"]);
    }

    /// <summary>The compiler and the packages that it comes with; all of them are beside the tests.</summary>
    private static IEnumerable<string> Libraries() =>
        new[] { "WaterScript.Compiler", "Antlr4.Runtime.Standard", "NodaTime", "Sep", "YamlDotNet", "csFastFloat" }
            .Select(name => Path.Combine(AppContext.BaseDirectory, name + ".dll"));

    private static void Compile(string program, string path)
    {
        var shared = RuntimeEnvironment.GetRuntimeDirectory();
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(file => file.StartsWith(shared, StringComparison.Ordinal))
            .Concat(Libraries()).Select(file => MetadataReference.CreateFromFile(file));
        var trees = new[] { program, ImplicitUsings }.Select(text => CSharpSyntaxTree.ParseText(text));
        var options = new CSharpCompilationOptions(OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable);
        var result = CSharpCompilation.Create(Name, trees, references, options).Emit(path);
        Assert.Empty(result.Diagnostics.Where(diagnostic => diagnostic.Severity > DiagnosticSeverity.Hidden));
        Assert.True(result.Success);
    }
}
