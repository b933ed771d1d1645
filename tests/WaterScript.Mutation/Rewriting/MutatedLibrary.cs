using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace WaterScript.Mutation.Rewriting;

/// <summary>The library with all mutants of some files in it, without those that the compiler refuses.</summary>
/// <param name="tree">A copy of the repository that has been built.</param>
/// <param name="chosen">Which files are mutated, by their path from the root.</param>
internal sealed class MutatedLibrary(string tree, Func<string, bool> chosen)
{
    /// <summary>Each round drops what the compiler names; what then comes to light is dropped in the next.</summary>
    private const int MostRounds = 40;

    private readonly HashSet<int> _refused = [];
    private readonly HashSet<string> _fixedConstants = [];
    private readonly List<Mutation> _mutations = [];
    private readonly Dictionary<string, (SyntaxTree Original, int First, SyntaxTree Current)> _files = [];
    private CSharpCompilation _compilation = null!;

    /// <summary>How many mutants there would be, those that do not compile among them.</summary>
    public int Count => _mutations.Count;

    /// <summary>The mutants that compile.</summary>
    public IEnumerable<Mutation> Mutations => _mutations.Where(mutation => !_refused.Contains(mutation.Number));

    /// <summary>Those that do not.</summary>
    public IEnumerable<Mutation> Refused => _mutations.Where(mutation => _refused.Contains(mutation.Number));

    /// <summary>Compiles it.</summary>
    /// <param name="output">Where the assembly is written.</param>
    public void Write(string output)
    {
        (_compilation, var resources) = LibrarySource.Read(tree);
        var sources = _compilation.SyntaxTrees.Where(source => chosen(Path.GetRelativePath(tree, source.FilePath)));
        foreach (var source in sources.OrderBy(source => source.FilePath, StringComparer.Ordinal))
        {
            var first = _mutations.Count;
            _files[source.FilePath] = (source, first, source);
            _mutations.AddRange(Rewrite(source.FilePath));
        }

        for (var round = 0; round < MostRounds; round++)
        {
            using var assembly = new MemoryStream();
            var result = _compilation.Emit(assembly, manifestResources: resources);
            if (result.Success)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(output)!);
                File.WriteAllBytes(output, assembly.ToArray());
                return;
            }

            Drop([.. result.Diagnostics.Where(diagnostic => diagnostic.Severity == DiagnosticSeverity.Error)]);
        }

        throw new InvalidOperationException("the mutated library does not compile");
    }

    private IReadOnlyList<Mutation> Rewrite(string path)
    {
        var (original, first, current) = _files[path];
        var rewriter = new Rewriter(Path.GetRelativePath(tree, path), first, _refused, _fixedConstants);
        var changed = original.WithRootAndOptions(rewriter.Visit(original.GetRoot())!, original.Options);
        _compilation = _compilation.ReplaceSyntaxTree(current, changed);
        _refused.UnionWith(rewriter.Left);
        _files[path] = (original, first, changed);
        return rewriter.Mutations;
    }

    private void Drop(IReadOnlyList<Diagnostic> errors)
    {
        HashSet<int> dropped = [];
        var constants = _fixedConstants.Count;
        foreach (var error in errors) dropped.UnionWith(CausesOf(error));
        dropped.ExceptWith(_refused);
        if (dropped.Count == 0 && _fixedConstants.Count == constants) throw new InvalidOperationException("the mutated library does not compile: " + errors[0]);
        _refused.UnionWith(dropped);
        // A constant may be named in any file; a mutant changes its own only.
        foreach (var (path, file) in _files.ToList())
            if (_fixedConstants.Count > constants || dropped.Any(number => _mutations[number].Path == Path.GetRelativePath(tree, path))) Rewrite(path);
    }

    /// <summary>
    /// The mutants that an error comes from: the one it lies in, those that lie in it, or all that may change how names are set in its member.
    /// </summary>
    private List<int> CausesOf(Diagnostic error)
    {
        if (error.Location.SourceTree is not { } source) return [];
        var node = source.GetRoot().FindNode(error.Location.SourceSpan, getInnermostNodeForTie: true);
        if (IsAboutConstants(error) && FixConstants(node)) return [];
        if (node.AncestorsAndSelf().SelectMany(NumbersOf).Where(IsLeft).Take(1).ToList() is { Count: > 0 } around) return around;
        var member = (SyntaxNode?)node.FirstAncestorOrSelf<MemberDeclarationSyntax>() ?? node;
        return CausesIn(node) is { Count: > 0 } inside ? inside : CausesIn(member);
    }

    /// <summary>Statements that are left out, of which a name may need one; where none is left, all.</summary>
    private List<int> CausesIn(SyntaxNode node)
    {
        var all = node.DescendantNodes().SelectMany(NumbersOf).Where(IsLeft).Distinct().ToList();
        var statements = all.Where(number => _mutations[number].Change == Rewriter.LeftOut).ToList();
        return statements.Count > 0 ? statements : all;
    }

    private static bool IsAboutConstants(Diagnostic error) =>
        error.Id is "CS0133" or "CS0150" or "CS9135" or "CS0182" or "CS1736" or "CS0266" or "CS0031" or "CS8917";

    private bool FixConstants(SyntaxNode node)
    {
        var known = _files.Values.SelectMany(file => file.Original.GetRoot().DescendantNodes().OfType<VariableDeclaratorSyntax>())
            .Where(IsConstant).Select(constant => constant.Identifier.Text).ToHashSet();
        var named = node.DescendantNodesAndSelf().OfType<IdentifierNameSyntax>().Select(name => name.Identifier.Text).Where(known.Contains).ToList();
        var before = _fixedConstants.Count;
        _fixedConstants.UnionWith(named);
        return _fixedConstants.Count > before;
    }

    private static bool IsConstant(VariableDeclaratorSyntax variable) => variable.Parent?.Parent switch
    {
        FieldDeclarationSyntax field => field.Modifiers.Any(SyntaxKind.ConstKeyword),
        LocalDeclarationStatementSyntax local => local.IsConst,
        _ => false,
    };

    private bool IsLeft(int number) => !_refused.Contains(number);

    private static IEnumerable<int> NumbersOf(SyntaxNode node) =>
        node.GetAnnotations(Rewriter.Mark).SelectMany(mark => mark.Data!.Split(',')).Select(number => int.Parse(number, CultureInfo.InvariantCulture));
}
