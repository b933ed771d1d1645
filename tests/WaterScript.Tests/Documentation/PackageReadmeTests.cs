using System.Runtime.InteropServices;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The example in the README of the package is short, compiles without a warning, and does what it says.</summary>
public sealed partial class PackageReadmeTests : Workshop
{
    private const string ImplicitUsings =
        "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; "
        + "global using System.Net.Http; global using System.Threading; global using System.Threading.Tasks;";

    private static readonly string Example = Block().Match(Repository.Read("src/WaterScript/README.md")).Groups["code"].Value;

    [Fact]
    public void The_example_has_one_using_and_at_most_ten_lines()
    {
        var lines = Example.TrimEnd('\n').Split('\n');
        Assert.InRange(lines.Length, 5, 10);
        Assert.Equal(["using WaterScript;"], lines.Where(line => Using().IsMatch(line)));
    }

    [Fact]
    public void The_example_compiles_and_runs()
    {
        foreach (var library in Libraries()) File.Copy(library, Path.Combine(Folder, Path.GetFileName(library)));
        File.Copy(Path.Combine(AppContext.BaseDirectory, "WaterScript.Tests.runtimeconfig.json"), Path.Combine(Folder, "hello.runtimeconfig.json"));
        Write("balcony.water", Repository.Read("examples/balcony.water"));
        Compile(Path.Combine(Folder, "hello.dll"));

        var run = WaterscriptProcess.Start(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"), Folder, [], [], ["hello.dll"]);

        Assert.Equal(("", 0), (run.Error, run.ExitCode));
        Assert.Equal("2026-04-17 07:30 herbs\n2026-04-21 07:30 herbs\n2026-04-24 07:30 herbs\n", run.Output.ReplaceLineEndings("\n"));
        Assert.Equal(Run("compile", "balcony.water", "--to", "yaml").Output, Read("balcony.yaml"));
    }

    /// <summary>The compiler and the packages that it comes with; all of them are beside the tests.</summary>
    private static IEnumerable<string> Libraries() =>
        new[] { "WaterScript.Compiler", "Antlr4.Runtime.Standard", "NodaTime", "Sep", "YamlDotNet", "csFastFloat" }
            .Select(name => Path.Combine(AppContext.BaseDirectory, name + ".dll"));

    private static void Compile(string path)
    {
        var shared = RuntimeEnvironment.GetRuntimeDirectory();
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(file => file.StartsWith(shared, StringComparison.Ordinal))
            .Concat(Libraries()).Select(file => MetadataReference.CreateFromFile(file));
        var trees = new[] { Example, ImplicitUsings }.Select(text => CSharpSyntaxTree.ParseText(text));
        var options = new CSharpCompilationOptions(OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable);
        var result = CSharpCompilation.Create("hello", trees, references, options).Emit(path);
        Assert.Empty(result.Diagnostics.Where(diagnostic => diagnostic.Severity > DiagnosticSeverity.Hidden));
        Assert.True(result.Success);
    }

    [GeneratedRegex(@"```csharp\n(?<code>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex(@"^using [\w.]+;$")]
    private static partial Regex Using();
}
