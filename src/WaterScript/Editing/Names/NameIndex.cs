using System.Collections.Immutable;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Names;

/// <summary>All names of a site: where each is declared, and where it stands.</summary>
internal sealed class NameIndex
{
    private readonly ILookup<(NameKind, string), NameUse> _byName;
    private readonly ILookup<SourceText, NameUse> _bySource;
    private readonly Dictionary<(NameKind, string), NameDeclaration> _declared = [];

    private NameIndex(IReadOnlyList<NameUse> uses, ImmutableArray<NameDeclaration> declarations)
    {
        _byName = uses.ToLookup(use => (use.Kind, use.Name));
        _bySource = uses.ToLookup(use => use.Where.Source);
        Declarations = declarations;
        foreach (var declaration in declarations) _declared.TryAdd((declaration.Kind, declaration.Name), declaration);
    }

    /// <summary>All declarations, by file, then in order.</summary>
    public ImmutableArray<NameDeclaration> Declarations { get; }

    /// <summary>The names in the files of a site.</summary>
    public static NameIndex Of(ImmutableArray<FileNode> files)
    {
        ImmutableArray<NameDeclaration> declarations =
        [
            .. files.SelectMany(file => file.Statements.Select(statement => NameDeclaration.Of(statement, file.Source))).OfType<NameDeclaration>(),
        ];
        var lets = declarations.Where(declaration => declaration.Kind == NameKind.Let).Select(declaration => declaration.Name)
            .ToHashSet(StringComparer.Ordinal);
        var uses = files.SelectMany(file => file.Statements.SelectMany(new NameWalker(file.Source, lets).In)).ToList();
        return new NameIndex(uses, declarations);
    }

    /// <summary>The names in a file, in order.</summary>
    public IEnumerable<NameUse> In(SourceText source) => _bySource[source].OrderBy(use => use.Where.Span.Start);

    /// <summary>The name at an offset, or that ends there.</summary>
    public NameUse? At(SourceText source, int offset)
    {
        foreach (var use in _bySource[source])
        {
            if (use.Where.Span.Start <= offset && offset <= use.Where.Span.End) return use;
        }

        return null;
    }

    /// <summary>Where a name is declared; null where no file does.</summary>
    public NameDeclaration? DeclarationOf(NameKind kind, string name) => _declared.GetValueOrDefault((kind, name));

    /// <summary>The declarations that a name leads to: <c>all</c> is every zone.</summary>
    public IEnumerable<NameDeclaration> Meant(NameUse use)
    {
        if (DeclarationOf(use.Kind, use.Name) is { } declaration) return [declaration];
        return use is { Kind: NameKind.Zone, Name: "all" } ? Declarations.Where(each => each.Word == "zone") : [];
    }

    /// <summary>Every place where a name stands, its declaration too.</summary>
    public IEnumerable<NameUse> UsesOf(NameKind kind, string name) => _byName[(kind, name)];

    /// <summary>The declarations of a kind.</summary>
    public IEnumerable<NameDeclaration> Of(NameKind kind) => Declarations.Where(declaration => declaration.Kind == kind);
}
