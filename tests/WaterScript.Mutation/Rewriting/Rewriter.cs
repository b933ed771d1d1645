using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using static Microsoft.CodeAnalysis.CSharp.SyntaxFactory;

namespace WaterScript.Mutation.Rewriting;

/// <summary>
/// Puts all mutants of a file into it: <c>a &lt; b</c> becomes <c>Mutant.Is(17) ? a &lt;= b : a &lt; b</c>. What a mutant does is made of the source as it
/// is: only one is in force at a time, and the text does not grow with the depth.
/// </summary>
/// <param name="path">The file, from the root.</param>
/// <param name="first">The number of its first mutant.</param>
/// <param name="refused">Mutants that do not compile.</param>
/// <param name="fixedConstants">Constants that have to be constant.</param>
internal sealed partial class Rewriter(string path, int first, IReadOnlySet<int> refused, IReadOnlySet<string> fixedConstants) : CSharpSyntaxRewriter
{
    /// <summary>Marks a mutant, or a place with several; its data is their numbers.</summary>
    public const string Mark = "mutant";

    /// <summary>What becomes of a statement.</summary>
    public const string LeftOut = "left out";

    private readonly List<Mutation> _mutations = [];
    private readonly List<int> _left = [];

    /// <summary>All of the file, those that are refused among them.</summary>
    public IReadOnlyList<Mutation> Mutations => _mutations;

    /// <summary>Those that are not in it, since they change what has to be constant.</summary>
    public IReadOnlyList<int> Left => _left;

    /// <summary>Numbers as the compiler wants them written down stay as they are.</summary>
    public override SyntaxNode? Visit(SyntaxNode? node) => node is AttributeListSyntax or EnumMemberDeclarationSyntax or ParameterSyntax or SwitchLabelSyntax
        or PatternSyntax or InterpolationAlignmentClauseSyntax or ArrayRankSpecifierSyntax or GotoStatementSyntax
        ? node
        : base.Visit(node);

    public override SyntaxNode? VisitBinaryExpression(BinaryExpressionSyntax node)
    {
        var rewritten = (ExpressionSyntax)base.VisitBinaryExpression(node)!;
        if (Changes.Declares(node) || IsText(node.Left) || IsText(node.Right)) return rewritten;
        return Choice(node, rewritten, Changes.OfOperator(node.OperatorToken.Kind())
            .Select(kind => ((ExpressionSyntax)WithOperator(node, kind), $"{node.OperatorToken.Text} → {SyntaxFacts.GetText(kind)}")));
    }

    public override SyntaxNode? VisitPrefixUnaryExpression(PrefixUnaryExpressionSyntax node)
    {
        var rewritten = (ExpressionSyntax)base.VisitPrefixUnaryExpression(node)!;
        var isSign = node.IsKind(SyntaxKind.LogicalNotExpression) || node.IsKind(SyntaxKind.UnaryMinusExpression);
        return !isSign || Changes.Declares(node) ? rewritten : Choice(node, rewritten, [(node.Operand, $"{node.OperatorToken.Text} left out")]);
    }

    public override SyntaxNode? VisitLiteralExpression(LiteralExpressionSyntax node) =>
        node.IsKind(SyntaxKind.NumericLiteralExpression) && Changes.OfNumber(node.Token) is { } changed
            ? Choice(node, node, [(node.WithToken(changed), $"{node} → {changed}")])
            : node;

    public override SyntaxNode? VisitConditionalExpression(ConditionalExpressionSyntax node)
    {
        var rewritten = (ExpressionSyntax)base.VisitConditionalExpression(node)!;
        return Changes.Declares(node)
            ? rewritten
            : Choice(node, rewritten, [(node.WithWhenTrue(node.WhenFalse).WithWhenFalse(node.WhenTrue), "answers of ? : swapped")]);
    }

    public override SyntaxNode? VisitInvocationExpression(InvocationExpressionSyntax node)
    {
        if (node.Expression is IdentifierNameSyntax { Identifier.Text: "nameof" }) return node;
        var rewritten = (ExpressionSyntax)base.VisitInvocationExpression(node)!;
        return node is { Expression: MemberAccessExpressionSyntax access, ArgumentList.Arguments.Count: > 0 }
            && Changes.OfMethod(access.Name.Identifier.Text) is { } other && !Changes.Declares(node) && !Changes.BindsOutside(node)
            ? Choice(node, rewritten, [(node.WithExpression(access.WithName(IdentifierName(other))), $"{access.Name} → {other}")])
            : rewritten;
    }

    /// <summary>The bounds of a pattern: <c>is &gt; 0 and &lt;= 12</c>.</summary>
    public override SyntaxNode? VisitIsPatternExpression(IsPatternExpressionSyntax node)
    {
        var rewritten = node.WithExpression((ExpressionSyntax)Visit(node.Expression)!);
        return Changes.Declares(node) ? rewritten : Choice(node, rewritten, PatternChanges(node, [node.Pattern]));
    }

    public override SyntaxNode? VisitSwitchExpression(SwitchExpressionSyntax node)
    {
        var rewritten = (ExpressionSyntax)base.VisitSwitchExpression(node)!;
        return Changes.Declares(node.GoverningExpression) ? rewritten : Choice(node, rewritten, PatternChanges(node, node.Arms.Select(arm => arm.Pattern)));
    }

    private static IEnumerable<(ExpressionSyntax, string)> PatternChanges(ExpressionSyntax host, IEnumerable<PatternSyntax> patterns)
    {
        foreach (var token in patterns.SelectMany(pattern => pattern.DescendantTokens()))
        {
            if (token.IsKind(SyntaxKind.NumericLiteralToken) && Changes.OfNumber(token) is { } number)
                yield return (host.ReplaceToken(token, number), $"{token.Text} → {number.Text}");
            if (token.Parent is not RelationalPatternSyntax) continue;
            foreach (var kind in Changes.OfComparison(token.Kind()).Take(1))
                yield return (host.ReplaceToken(token, Token(kind)), $"{token.Text} → {SyntaxFacts.GetText(kind)}");
        }
    }

    private static bool IsText(ExpressionSyntax operand) => operand is InterpolatedStringExpressionSyntax || operand.IsKind(SyntaxKind.StringLiteralExpression);

    private static BinaryExpressionSyntax WithOperator(BinaryExpressionSyntax node, SyntaxKind kind)
    {
        // In parentheses: another operator binds its operands otherwise.
        var (left, right) = (ParenthesizedExpression(node.Left.WithoutTrivia()), ParenthesizedExpression(node.Right.WithoutTrivia()));
        return BinaryExpression(SyntaxFacts.GetBinaryExpression(kind), left, right);
    }

    private ExpressionSyntax Choice(ExpressionSyntax original, ExpressionSyntax rewritten, IEnumerable<(ExpressionSyntax Changed, string Change)> changes)
    {
        var result = rewritten.WithoutTrivia();
        List<int> numbers = [];
        foreach (var (changed, change) in changes)
        {
            if (Add(original, change) is not { } number) continue;
            numbers.Add(number);
            var mutant = ParenthesizedExpression(changed.WithoutTrivia()).WithAdditionalAnnotations(Marked([number]));
            result = ConditionalExpression(Question(number), mutant, ParenthesizedExpression(result));
        }

        return numbers.Count == 0 ? rewritten : ParenthesizedExpression(result).WithAdditionalAnnotations(Marked(numbers)).WithTriviaFrom(original);
    }

    private static SyntaxAnnotation Marked(IEnumerable<int> numbers) => new(Mark, string.Join(',', numbers));

    private static ExpressionSyntax Question(int number) => ParseExpression(FormattableString.Invariant($"global::WaterScript.Mutation.Mutant.Is({number})"));

    /// <summary>The number of a mutant; null where it does not compile.</summary>
    private int? Add(SyntaxNode place, string change)
    {
        var number = first + _mutations.Count;
        var at = place is BinaryExpressionSyntax binary ? binary.OperatorToken.GetLocation() : place.GetLocation();
        var line = at.GetLineSpan().StartLinePosition.Line;
        _mutations.Add(new Mutation(number, path, line + 1, change, place.SyntaxTree.GetText().Lines[line].ToString().Trim()));
        return refused.Contains(number) ? null : number;
    }
}
