using System.Collections.Immutable;
using System.Globalization;
using Antlr4.Runtime;
using WaterScript.Language;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>What the actions of the grammar call: they make the nodes of the tree, and end statements.</summary>
internal abstract class TreeBuilder(ITokenStream input, TextWriter output, TextWriter errors)
    : Antlr4.Runtime.Parser(input, output, errors)
{
    private SourceText? _source;
    private Mistakes? _mistakes;
    private bool _isUnread;

    /// <summary>The file.</summary>
    public SourceText Source => _source ?? throw new InvalidOperationException("Call Begin first.");

    /// <summary>Takes what is found.</summary>
    public Mistakes Mistakes => _mistakes ?? throw new InvalidOperationException("Call Begin first.");

    /// <summary>Whether the statement ended where its block should have begun.</summary>
    public bool LacksBlock { get; set; }

    /// <summary>Whether the statement could be read up to here.</summary>
    protected bool Whole => !ErrorHandler.InErrorRecoveryMode(this);

    /// <summary>Sets what the parser reads and where its findings go.</summary>
    public void Begin(SourceText source, Mistakes mistakes)
    {
        _source = source;
        _mistakes = mistakes;
        BuildParseTree = false;
        RemoveErrorListeners();
        ErrorHandler = new RecoveryStrategy();
    }

    // ---- Spans and tokens

    /// <summary>From the first token of a rule to the last one that was read.</summary>
    protected TextSpan SpanOf(ParserRuleContext context)
    {
        var start = context.Start.StartIndex;
        var last = TokenStream.LT(-1);
        return last is null || last.StopIndex < start ? new TextSpan(start, 0) : TextSpan.FromBounds(start, last.StopIndex + 1);
    }

    /// <summary>The tokens that a rule has read.</summary>
    protected RowNode RowOf(ParserRuleContext context) => RowBetween(context.Start.TokenIndex, TokenStream.Index, SpanOf(context));

    /// <summary>A token as the tree shows it.</summary>
    protected static Token TokenOf(IToken token) => new(Kinds.Of(token.Type), token.Span(), token.Text);

    /// <summary>The name or word that a token is.</summary>
    protected static NameNode NameOf(IToken token) => new(token.Span(), token.Text);

    /// <summary>The number that a token is.</summary>
    protected static NumberNode NumberOf(IToken token) =>
        new(token.Span(), decimal.TryParse(token.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : decimal.MaxValue);

    /// <summary>The label that a token is, its escapes read. One that says nothing would leave a name, a reason or a path empty.</summary>
    protected StringNode StringOf(IToken token)
    {
        var node = new StringNode(token.Span(), Labels.Read(token.Text, token.StartIndex, Mistakes));
        if (string.IsNullOrWhiteSpace(node.Value)) Mistakes.NothingInQuotes(node.Span);
        return node;
    }

    // ---- Lists

    /// <summary>Adds a node that could be read.</summary>
    protected static void Add<T>(List<T> nodes, T? node)
        where T : Node
    {
        if (node is not null) nodes.Add(node);
    }

    /// <summary>The days of an <c>on</c> that may not be there.</summary>
    protected static ImmutableArray<DayNode> DaysOf(List<DayNode>? nodes) => nodes is null ? [] : [.. nodes];

    // ---- Days and dates

    /// <summary>A day of the week where nothing else can stand.</summary>
    /// <param name="word">The word; null where none could be read.</param>
    protected NameNode WeekdayOf(NameNode? word) => word is null ? null! : Canonical(word, KnownTypos.Weekday(word.Text));

    /// <summary>A month where nothing else can stand.</summary>
    /// <param name="word">The word; null where none could be read.</param>
    protected NameNode MonthOf(NameNode? word) => word is null ? null! : Canonical(word, KnownTypos.Month(word.Text));

    private NameNode Canonical(NameNode word, string? form)
    {
        if (form is null || form == word.Text) return word;
        Mistakes.Unusual(word.Span, form);
        return word with { Text = form };
    }

    /// <summary><c>last feb</c></summary>
    protected DateBaseNode LastOf(ParserRuleContext context, NameNode month) =>
        new MonthDayNode(TextSpan.FromBounds(context.Start.StartIndex, month.Span.End), null, MonthOf(month));

    /// <summary>A date with its offset, which may not be there.</summary>
    protected static DateNode DateOf(DateBaseNode @base, WaterScriptParser.OffsetContext? offset) =>
        new(TextSpan.FromBounds(@base.Span.Start, (offset?.node.Span ?? @base.Span).End), @base, offset?.node, offset?.before ?? false);

    /// <summary>A day that begins with a word: a day of the week, or the name of a let.</summary>
    protected DayNode WordDay(ParserRuleContext context, NameNode first, WaterScriptParser.OffsetContext? offset, DateNode? last)
    {
        var span = SpanOf(context);
        if (offset is null && last is null && KnownTypos.WeekdayRange(first.Text) is { } range)
        {
            Mistakes.GluedWeekdays(first.Span, range.First, range.Last);
            return new WeekdayNode(span, first with { Text = range.First }, first with { Text = range.Last });
        }

        if (offset is null && KnownTypos.Weekday(first.Text) is not null && last is null or { Base: LetDateNode, Offset: null })
            return new WeekdayNode(span, WeekdayOf(first), last is null ? null : WeekdayOf(new NameNode(last.Span, ((LetDateNode)last.Base).Name)));
        return new DateRangeNode(span, DateOf(new LetDateNode(first.Span, first.Text), offset), last);
    }

    // ---- Blocks

    /// <summary>A description at the top of a file; null where it is none.</summary>
    protected StatementNode? BlockOf(ParserRuleContext context, WaterScriptParser.BlockHeadContext head, WaterScriptParser.BodyContext? body)
    {
        var begins = Words.BeginsStatement(head.Start.Text, Place.File);
        if (IsInBare(context) && (body is null || !begins)) return null;
        if (body is not null && begins) return Named(Described(context, head, body));
        if (body is not null) return Described(context, head, body);
        _isUnread = true;
        if (begins) ReportNoBlock();
        else Mistakes.UnknownStatement(TokenOf(head.Start), Place.File);
        return null;
    }

    private BlockNode Named(BlockNode block)
    {
        if (!block.Header.IsEmpty) GivenName(block.Header[0]);
        return block;
    }

    private void ReportNoBlock()
    {
        Mistakes.NoBlock(new TextSpan(TokenStream.LT(-1).StopIndex + 1, 0));
        LacksBlock = true;
    }

    /// <summary>A property, or a block inside a block.</summary>
    protected StatementNode PropertyOf(ParserRuleContext context, WaterScriptParser.PropertyHeadContext head, WaterScriptParser.BodyContext? body)
    {
        if (body is not null) return Described(context, head, body);
        var value = RowBetween(head.Start.TokenIndex + 1, TokenStream.Index, SpanOf(head));
        return new PropertyNode(SpanOf(context), NameOf(head.Start), value);
    }

    /// <summary>What a step waters: where several begin together, the first span has the word of the step in it, and the last the injector.</summary>
    protected static StepNode? WaterOf(TextSpan span, List<WaterNode> waters, DoseNode? through)
    {
        if (waters.Count == 0) return null;
        if (waters is [var only]) return only with { Span = span, Through = through };
        waters[0] = waters[0] with { Span = TextSpan.FromBounds(span.Start, waters[0].Span.End) };
        waters[^1] = waters[^1] with { Span = TextSpan.FromBounds(waters[^1].Span.Start, span.End), Through = through };
        return new TogetherNode(span, [.. waters]);
    }

    /// <summary>A name where it is given, which must be well formed.</summary>
    /// <param name="name">The name; null where none could be read.</param>
    protected NameNode? GivenName(NameNode? name)
    {
        if (name is not null && !Names.IsWellFormed(name.Text)) Mistakes.BadName(name.Span, name.Text);
        return name;
    }

    private BlockNode Described(ParserRuleContext context, ParserRuleContext head, WaterScriptParser.BodyContext body)
    {
        var header = ImmutableArray.CreateBuilder<NameNode>();
        StringNode? label = null;
        for (var i = head.Start.TokenIndex + 1; i < body.Start.TokenIndex; i++)
        {
            var token = TokenStream.Get(i);
            if (token.Type != WaterScriptLexer.STRING) header.Add(NameOf(token));
            else if (label is null) label = StringOf(token);
            else Mistakes.SecondLabel(token.Span(), label.Span);
        }

        if (label is not null && header.Count > 0 && label.Span.Start < header[0].Span.Start) Mistakes.LabelBeforeName(label.Span, header[0].Span);

        return new BlockNode(SpanOf(context), NameOf(head.Start), header.DrainToImmutable(), label, [.. body.nodes])
        {
            Brace = body.Start.Span(),
            Row = RowBetween(head.Start.TokenIndex + 1, body.Start.TokenIndex, SpanOf(head)),
        };
    }

    // ---- Statements

    /// <summary>Steps where no <c>accept</c> may stand.</summary>
    protected ImmutableArray<StepNode> OnlySteps(StepList list)
    {
        foreach (var accept in list.Accepts) Mistakes.MisplacedAccept(accept.Span);
        return list.Steps;
    }

    /// <summary>After a statement: nothing may follow it on its line.</summary>
    protected void EndStatement()
    {
        if (AtEnd || (Whole && CurrentToken.Type == WaterScriptLexer.LBRACE)) return;
        if (Whole && SecondWatering() is { } second)
            Mistakes.SecondWatering(TokenStream.Get(StatementStart()).SpanTo(TokenStream.LT(-1)), CurrentToken.Span(), second);
        else if (Whole) Mistakes.Leftover(CurrentToken);
        SkipStatement();
    }

    /// <summary>
    /// After a statement at the top of a file, which may have lines without braces that were to be its block: they are gone over, so that one mistake
    /// is one finding.
    /// </summary>
    protected void EndTopStatement()
    {
        var start = LacksBlock ? Source.PositionOf(TokenStream.Get(StatementStart()).StartIndex).Column : 0;
        TakeUnreadNames();
        EndStatement();
        while (LacksBlock && CurrentToken.Type == WaterScriptLexer.NEWLINE && IsOfBlock(TokenStream.LT(2), start))
        {
            TokenStream.Consume();
            SkipStatement();
        }

        LacksBlock = false;
    }

    /// <summary>Takes the first two words of a statement that could not be read: one of them may be the name that it gives.</summary>
    private void TakeUnreadNames()
    {
        if (Whole && !LacksBlock && AtEnd && !_isUnread) return;
        _isUnread = false;
        var start = StatementStart();
        for (var i = start; i < Math.Min(start + 2, CurrentToken.TokenIndex); i++) Mistakes.UnreadNames.Add(TokenStream.Get(i).Text);
    }

    private bool IsOfBlock(IToken first, int start) => !EndsStatement(first) &&
        (Source.PositionOf(first.StartIndex).Column > start || !Words.BeginsStatement(first.Text, Place.File));

    /// <summary>The rest of <c>water beds for 10 min, pots for 5 min</c>, from <c>pots</c> on; null where something else is left over.</summary>
    private TextSpan? SecondWatering()
    {
        if (CurrentToken.Type is not (WaterScriptLexer.COMMA or WaterScriptLexer.AND)) return null;
        if (TokenStream.Get(StatementStart()).Type != WaterScriptLexer.WATER) return null;
        var (last, isWatering) = (1, false);
        while (!EndsStatement(TokenStream.LT(last + 1)))
        {
            last++;
            isWatering |= last > 2 && TokenStream.LT(last).Type is WaterScriptLexer.FOR or WaterScriptLexer.WITH;
        }

        return isWatering && Words.IsWord(TokenStream.LT(2).Type) ? TokenStream.LT(2).SpanTo(TokenStream.LT(last)) : null;
    }

    private int StatementStart()
    {
        var first = CurrentToken.TokenIndex;
        while (first > 0 && !EndsStatement(TokenStream.Get(first - 1)) && TokenStream.Get(first - 1).Type != WaterScriptLexer.LBRACE) first--;
        return first;
    }

    /// <summary>A statement that this place does not know.</summary>
    protected void Unknown(ParserRuleContext context, Place place)
    {
        if (!IsInBare(context)) Mistakes.UnknownStatement(TokenOf(context.Start), place);
    }

    /// <summary>Braces that belong to no statement.</summary>
    protected void Bare(ParserRuleContext context, IToken brace, Place place)
    {
        if (!IsInBare(context)) Mistakes.BareBraces(brace.Span(), place);
    }

    /// <summary>Whether something stands right in such braces. They are reported; what may stand in them nobody knows.</summary>
    private static bool IsInBare(RuleContext context)
    {
        for (var around = context.Parent; around is not null; around = around.Parent)
        {
            if (around is WaterScriptParser.BodyContext or WaterScriptParser.ScheduleBodyContext
                or WaterScriptParser.StepsContext or WaterScriptParser.RestrictionBodyContext) return false;
            if (around is WaterScriptParser.BareInFileContext or WaterScriptParser.BareInDescriptionContext or WaterScriptParser.BareInScheduleContext
                or WaterScriptParser.BareInStepsContext or WaterScriptParser.BareInRestrictionContext) return true;
        }

        return false;
    }

    private bool AtEnd => EndsStatement(CurrentToken);

    private static bool EndsStatement(IToken token) => token.Type is WaterScriptLexer.NEWLINE or WaterScriptLexer.RBRACE or TokenConstants.EOF;

    /// <summary>Goes to the end of the statement, over braces that belong to nothing.</summary>
    private void SkipStatement()
    {
        var depth = 0;
        while (CurrentToken.Type != TokenConstants.EOF && (depth > 0 || !AtEnd))
        {
            if (CurrentToken.Type == WaterScriptLexer.LBRACE) depth++;
            if (CurrentToken.Type == WaterScriptLexer.RBRACE) depth--;
            TokenStream.Consume();
        }
    }

    private RowNode RowBetween(int first, int end, TextSpan around)
    {
        var tokens = ImmutableArray.CreateBuilder<Token>(Math.Max(0, end - first));
        for (var i = first; i < end; i++) tokens.Add(TokenOf(TokenStream.Get(i)));
        var span = tokens.Count == 0 ? new TextSpan(around.End, 0) : TextSpan.Cover(tokens[0].Span, tokens[^1].Span);
        return new RowNode(span, tokens.DrainToImmutable());
    }
}
