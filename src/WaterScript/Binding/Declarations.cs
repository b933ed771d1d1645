using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>A statement and the file it stands in.</summary>
internal readonly record struct PlacedNode<T>(T Node, SourceText Source)
    where T : Node
{
    public Location At(TextSpan span) => new(Source, span);
}

/// <summary>
/// What stands at the top of all files, by kind and in order, each name once. A block of an unknown kind, a header that has
/// too little or too much, and a second thing of one name are reported and left out.
/// </summary>
internal sealed class Declarations
{
    /// <summary>Kinds of block and the number of words after each.</summary>
    private static readonly Dictionary<string, int> HeaderLengths = new(StringComparer.Ordinal)
    {
        ["site"] = 1,
        ["supply"] = 1,
        ["tariff"] = 1,
        ["controller"] = 1,
        ["valve"] = 2,
        ["pump"] = 1,
        ["master"] = 1,
        ["injector"] = 1,
        ["zone"] = 1,
        ["soil"] = 1,
        ["plants"] = 1,
        ["climate"] = 0,
        ["scale"] = 1,
    };

    /// <summary>What other programs and people call these things.</summary>
    private static readonly Dictionary<string, string> Synonyms = new(StringComparer.Ordinal)
    {
        ["program"] = "schedule",
        ["programme"] = "schedule",
        ["timer"] = "schedule",
        ["plan"] = "schedule",
        ["station"] = "zone",
        ["circuit"] = "zone",
        ["sector"] = "zone",
        ["area"] = "zone",
        ["bed"] = "zone",
        ["source"] = "supply",
        ["tank"] = "supply",
        ["well"] = "supply",
        ["mains"] = "supply",
        ["crop"] = "plants",
        ["plant"] = "plants",
        ["weather"] = "climate",
    };

    private static readonly string[] StatementWords =
        ["include", "let", "group", "hold", "closed", "extra", "accept", "sequence", "restriction", "schedule", "skip", "days", "keep"];

    private static readonly string[] StatementsWithBlocks = ["extra", "sequence", "restriction", "schedule"];

    private readonly Scope _scope;
    private readonly Dictionary<(string Kind, string Name), Location> _names = [];
    private readonly List<(StatementNode Node, SourceText Source)> _statements = [];

    public Declarations(IEnumerable<FileNode> files, Scope scope)
    {
        _scope = scope;
        foreach (var file in files)
        {
            foreach (var name in file.UnreadNames) TakeGlued(name);
            foreach (var statement in file.Statements)
            {
                if (IsNew(statement, file.Source)) _statements.Add((statement, file.Source));
            }
        }
    }

    /// <summary>Whether a description begins with a word that there is not: it may be that of the site, or of the climate.</summary>
    public bool HasUnknown { get; private set; }

    /// <summary>The statements of a type.</summary>
    public IEnumerable<PlacedNode<T>> All<T>()
        where T : StatementNode =>
        _statements.Where(placed => placed.Node is T).Select(placed => new PlacedNode<T>((T)placed.Node, placed.Source));

    /// <summary>The blocks of a kind.</summary>
    public IEnumerable<PlacedNode<BlockNode>> Blocks(string kind) => All<BlockNode>().Where(block => block.Node.Kind.Text == kind);

    /// <summary>Zones, groups, pumps, masters and injectors stand in the same places, so they are one kind of name.</summary>
    private static string KindOf(StatementNode statement) => statement switch
    {
        BlockNode { Kind.Text: "zone" or "pump" or "master" or "injector" } or GroupNode => "zone, group, pump, master or injector",
        BlockNode block => block.Kind.Text,
        SequenceNode => "sequence",
        ScheduleNode => "schedule",
        RestrictionNode => "restriction",
        LetNode or NamedDaysNode => "let",
        _ => "",
    };

    private static NameNode? NameOf(StatementNode statement) => statement switch
    {
        BlockNode block => block.Header.IsEmpty ? block.Kind : block.Header[0],
        GroupNode group => group.Name,
        SequenceNode sequence => sequence.Name,
        ScheduleNode schedule => schedule.Name,
        RestrictionNode restriction => restriction.Name,
        LetNode let => let.Name,
        NamedDaysNode days => days.Name,
        _ => null,
    };

    private bool IsNew(StatementNode statement, SourceText source)
    {
        if (statement is BlockNode block && !IsKnown(block, source))
        {
            foreach (var word in block.Header.Prepend(block.Kind)) TakeGlued(word.Text);
            if (block.Label is not null && Names.Like(block.Label.Value) is { } like) _scope.TakeUnread(like);
            return false;
        }

        if (NameOf(statement) is not { } name) return true;
        TakeMisread(name, source);
        var location = new Location(source, name.Span);
        if (name.Text == "all" && KindOf(statement).StartsWith("zone", StringComparison.Ordinal))
        {
            _scope.Report(ReadingRules.DuplicateName, location, "\"all\" stands for all zones", help: "Give it another name.");
            return false;
        }

        if (_names.TryAdd((KindOf(statement), statement is BlockNode { Kind.Text: "site" } ? "" : name.Text), location)) return true;
        var first = _names[(KindOf(statement), statement is BlockNode { Kind.Text: "site" } ? "" : name.Text)];
        var heading = statement is BlockNode { Kind.Text: "site" or "climate" } only
            ? $"a second {only.Kind.Text}"
            : $"two things are called \"{name.Text}\"";
        _scope.Report(Finding.At(ReadingRules.DuplicateName, location, heading, "the second") with
        {
            Others = [new Label(first, "the first")],
            Help = statement is BlockNode { Kind.Text: "site" or "climate" } ? "Delete one of the two." : "Give one of them another name.",
        });
        return false;
    }

    /// <summary>Takes a word of a statement that cannot be read, which may be a name, also where it is glued to the word before it.</summary>
    private void TakeGlued(string word)
    {
        _scope.TakeUnread(word);
        foreach (var kind in HeaderLengths.Keys.Concat(StatementWords).Where(kind => word.StartsWith(kind, StringComparison.Ordinal)))
            _scope.TakeUnread(word[kind.Length..]);
        foreach (var kind in (string[])["non-latching", "latching"])
        {
            if (word.EndsWith(kind, StringComparison.Ordinal)) _scope.TakeUnread(word[..^kind.Length]);
        }

        if (word is ['=' or '"' or '{', ..]) _scope.TakeUnnamed();
    }

    /// <summary>A name that is not as names are, which is reported, may be used in the form that it should have, and in its parts.</summary>
    private void TakeMisread(NameNode name, SourceText source)
    {
        var written = source.Slice(name.Span);
        if (Names.IsWellFormed(name.Text) && (written == name.Text || !HasErrorIn(new Location(source, name.Span)))) return;
        if (!Names.IsWellFormed(name.Text)) _scope.TakeIllFormed(name.Text);
        foreach (var part in written.Split(' ').Append(written))
        {
            _scope.TakeUnread(part);
            if (Names.Like(part) is { } like) _scope.TakeUnread(like);
        }
    }

    /// <summary>What is only advised of a name, such as to write <c>2</c> for <c>²</c>, leaves no doubt which name it is.</summary>
    private bool HasErrorIn(Location place) => _scope.Findings.Any(finding => finding.Severity == Severity.Error
        && finding.Primary.Location.Source == place.Source && place.Span.Contains(finding.Primary.Location.Span));

    private bool IsKnown(BlockNode block, SourceText source)
    {
        var kind = block.Kind.Text;
        if (!HeaderLengths.TryGetValue(kind, out var length))
        {
            HasUnknown = true;
            var location = new Location(source, block.Kind.Span);
            var apart = block.Header.IsEmpty ? Spelling.Apart(kind, HeaderLengths.Keys, name => Names.Like(name) == name) : null;
            if (Synonyms.TryGetValue(kind.ToLowerInvariant(), out var meant) || (meant = apart) is not null)
                _scope.ReportUncertain(location, $"unknown word \"{kind}\"", meant, [meant]);
            else _scope.ReportUnknown(location, $"unknown word \"{kind}\"", kind, HeaderLengths.Keys, StatementsWithBlocks);
            return false;
        }

        if (block.Header.Length == length) return true;
        if (block.Header.Length > length)
        {
            var extra = block.Header[length];
            _scope.Report(ReadingRules.Syntax, new Location(source, extra.Span), $"\"{extra.Text}\" does not belong here", help: FormOf(kind));
            return kind != "valve" || length == 2;
        }

        if (kind == "valve" && block.Header.Length == 1)
            _scope.Report(ReadingRules.Missing, new Location(source, block.Header[0].Span), $"whether valve \"{block.Header[0].Text}\" is latching is missing",
                help: FormOf(kind));
        else if (!_scope.HasFindingIn(new Location(source, block.Row.Span)))
            _scope.Report(ReadingRules.Missing, new Location(source, block.Kind.Span), $"a {kind} without a name", help: FormOf(kind, block.Label));
        if (block.Header.IsEmpty || block.Header[0].Text is "latching" or "non-latching") _scope.TakeUnnamed();
        HasUnknown |= kind == "site";
        return false;
    }

    private static string FormOf(string kind, StringNode? label = null) => kind switch
    {
        "climate" => "Write it as `climate { … }`.",
        "valve" => "Write it as `valve ac24 non-latching { … }` or `valve ac24 latching { … }`.",
        _ when label is not null && Names.Like(label.Value) is { } name => $"Write it as `{kind} {name} \"{label.Value}\" {{ … }}`.",
        _ => $"Write it as `{kind} name \"Label\" {{ … }}`.",
    };
}
