using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using WaterScript.Tests.Documentation;

namespace WaterScript.Tests;

/// <summary>Which files of a project use which, by the compiler's own understanding of each name.</summary>
internal sealed class FileDependencies
{
    private const string GlobalUsings = "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; "
        + "global using System.Threading; global using System.Threading.Tasks;";
    private readonly Dictionary<string, HashSet<string>> _used = [];

    /// <summary>The files, by their paths within the project.</summary>
    public IReadOnlyCollection<string> Files => _used.Keys;

    /// <summary>The files that a file uses.</summary>
    public IEnumerable<string> UsedBy(string file) => _used[file].Order(StringComparer.Ordinal);

    /// <summary>Reads a project of the repository.</summary>
    public static FileDependencies Of(string project)
    {
        var root = Path.Combine(Repository.Root, project);
        var options = new CSharpParseOptions(LanguageVersion.Preview);
        SyntaxTree[] trees = [.. SourcesOf(root).Select(name => CSharpSyntaxTree.ParseText(File.ReadAllText(Path.Combine(root, name)), options, name))];
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(path => !Path.GetFileName(path).StartsWith("WaterScript", StringComparison.OrdinalIgnoreCase))
            .Select(path => MetadataReference.CreateFromFile(path));
        var compilation = CSharpCompilation.Create("project", trees.Append(CSharpSyntaxTree.ParseText(GlobalUsings, options)), references);
        var dependencies = new FileDependencies();
        foreach (var tree in trees.Where(tree => IsWritten(tree.FilePath)))
            dependencies._used[tree.FilePath] =
                [.. SeenFrom(tree, compilation.GetSemanticModel(tree)).Where(IsWritten)];
        return dependencies;
    }

    /// <summary>The files of a project, without those that a tool writes.</summary>
    public static IEnumerable<string> FilesOf(string project) => SourcesOf(Path.Combine(Repository.Root, project)).Where(IsWritten);

    /// <summary>Files that need one another, each group in order of names.</summary>
    public IEnumerable<string[]> Circles()
    {
        var reach = Files.ToDictionary(file => file, Reach);
        return Files.Select(file => Files.Where(other => other == file || (reach[file].Contains(other) && reach[other].Contains(file)))
            .Order(StringComparer.Ordinal).ToArray())
            .Where(circle => circle.Length > 1).DistinctBy(circle => circle[0]);
    }

    /// <summary>All that stands in the way of the order, as the lists of what is known say it.</summary>
    public HashSet<string> Found(string[] stages) =>
    [
        .. Files.SelectMany(file => UsedBy(file).Where(used => Array.IndexOf(stages, StageOf(used)) > Array.IndexOf(stages, StageOf(file)))
            .Select(used => $"{file} sees {used}")),
        .. Circles().Select(circle => string.Join(" ", circle)),
    ];

    /// <summary>The outermost folder of a file; empty for one that stands in none.</summary>
    public static string StageOf(string file) => file[..Math.Max(0, file.IndexOf('/', StringComparison.Ordinal))];

    private static IEnumerable<string> SourcesOf(string root) => Directory.EnumerateFiles(root, "*.cs", SearchOption.AllDirectories)
        .Select(path => Path.GetRelativePath(root, path).Replace('\\', '/'))
        .Where(name => !name.StartsWith("bin/", StringComparison.Ordinal) && !name.StartsWith("obj/", StringComparison.Ordinal));

    private static bool IsWritten(string file) => !file.Contains("/Generated/", StringComparison.Ordinal);

    private HashSet<string> Reach(string file)
    {
        var reached = new HashSet<string>();
        var open = new Stack<string>([file]);
        while (open.TryPop(out var next))
            foreach (var used in _used[next].Where(reached.Add)) open.Push(used);
        return reached;
    }

    private static IEnumerable<string> SeenFrom(SyntaxTree tree, SemanticModel model) => tree.GetRoot().DescendantNodes()
        .Where(node => node is SimpleNameSyntax or ImplicitObjectCreationExpressionSyntax or InvocationExpressionSyntax or ConstructorInitializerSyntax)
        .Where(node => node.FirstAncestorOrSelf<UsingDirectiveSyntax>() is null)
        .Select(node => TypeOf(model.GetSymbolInfo(node)))
        .SelectMany(type => type?.DeclaringSyntaxReferences.Select(place => place.SyntaxTree.FilePath) ?? [])
        .Where(file => file.Length > 0 && file != tree.FilePath);

    /// <summary>The outermost type that a name stands for, or that its member belongs to.</summary>
    private static INamedTypeSymbol? TypeOf(SymbolInfo info)
    {
        var type = (info.Symbol ?? info.CandidateSymbols.FirstOrDefault()) switch
        {
            INamedTypeSymbol named => named,
            IMethodSymbol or IPropertySymbol or IFieldSymbol or IEventSymbol => (info.Symbol ?? info.CandidateSymbols[0]).ContainingType,
            _ => null,
        };
        while (type?.ContainingType is { } outer) type = outer;
        return type?.OriginalDefinition;
    }
}
