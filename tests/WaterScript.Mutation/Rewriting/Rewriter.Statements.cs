using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using static Microsoft.CodeAnalysis.CSharp.SyntaxFactory;

namespace WaterScript.Mutation.Rewriting;

/// <summary>Statements that are left out, conditions that are negated, and constants that have to be something that can be asked.</summary>
internal sealed partial class Rewriter
{
    public override SyntaxNode? VisitExpressionStatement(ExpressionStatementSyntax node)
    {
        var rewritten = (StatementSyntax)base.VisitExpressionStatement(node)!;
        if (Changes.Declares(node) || IsGuard(node.Expression)) return rewritten;
        if (node.Expression is not AssignmentExpressionSyntax assignment) return WithoutStatement(node, rewritten);
        var result = rewritten;
        foreach (var kind in Changes.OfOperator(assignment.OperatorToken.Kind()))
        {
            var change = $"{assignment.OperatorToken.Text} → {SyntaxFacts.GetText(kind)}";
            if (Add(node, change) is not { } number) continue;
            var changed = node.WithExpression(AssignmentExpression(SyntaxFacts.GetAssignmentExpression(kind), assignment.Left, assignment.Right))
                .WithAdditionalAnnotations(Marked([number]));
            result = Block(IfStatement(Question(number), changed, ElseClause(result))).WithAdditionalAnnotations(Marked([number]));
        }

        return WithoutStatement(node, result);
    }

    public override SyntaxNode? VisitContinueStatement(ContinueStatementSyntax node) => WithoutStatement(node, node);

    public override SyntaxNode? VisitBreakStatement(BreakStatementSyntax node) =>
        node.Ancestors().First(outer => outer is SwitchStatementSyntax or ForStatementSyntax or CommonForEachStatementSyntax or WhileStatementSyntax
            or DoStatementSyntax) is SwitchStatementSyntax ? node : WithoutStatement(node, node);

    public override SyntaxNode? VisitYieldStatement(YieldStatementSyntax node) => WithoutStatement(node, (StatementSyntax)base.VisitYieldStatement(node)!);

    public override SyntaxNode? VisitReturnStatement(ReturnStatementSyntax node) =>
        node.Expression is null ? WithoutStatement(node, node) : base.VisitReturnStatement(node);

    public override SyntaxNode? VisitIfStatement(IfStatementSyntax node)
    {
        var rewritten = (IfStatementSyntax)base.VisitIfStatement(node)!;
        var isChanged = node.Condition is BinaryExpressionSyntax or PrefixUnaryExpressionSyntax;
        if (isChanged || Changes.Declares(node.Condition)) return rewritten;
        var negated = PrefixUnaryExpression(SyntaxKind.LogicalNotExpression, ParenthesizedExpression(node.Condition));
        return rewritten.WithCondition(Choice(node.Condition, rewritten.Condition, [(negated, "condition negated")]));
    }

    /// <summary>A constant becomes a property, whose number can be another each time it is asked.</summary>
    public override SyntaxNode? VisitFieldDeclaration(FieldDeclarationSyntax node)
    {
        if (!node.Modifiers.Any(SyntaxKind.ConstKeyword)) return base.VisitFieldDeclaration(node);
        if (!IsNumeric(node.Declaration.Type) || node.Declaration.Variables is not [{ Initializer.Value: { } value } constant]) return node;
        if (fixedConstants.Contains(constant.Identifier.Text)) return Unchanged(node, value);
        var modifiers = TokenList(node.Modifiers
            .Select(token => token.IsKind(SyntaxKind.ConstKeyword) ? Token(SyntaxKind.StaticKeyword) : token.WithoutTrivia())
            .Select(token => token.WithTrailingTrivia(Space)));
        return PropertyDeclaration(node.Declaration.Type, constant.Identifier)
            .WithModifiers(modifiers)
            .WithExpressionBody(ArrowExpressionClause((ExpressionSyntax)Visit(value)!))
            .WithSemicolonToken(Token(SyntaxKind.SemicolonToken))
            .WithTriviaFrom(node);
    }

    public override SyntaxNode? VisitLocalDeclarationStatement(LocalDeclarationStatementSyntax node)
    {
        if (!node.IsConst) return base.VisitLocalDeclarationStatement(node);
        if (!IsNumeric(node.Declaration.Type)) return node;
        if (node.Declaration.Variables.Any(constant => fixedConstants.Contains(constant.Identifier.Text))) return Unchanged(node, node.Declaration);
        return ((LocalDeclarationStatementSyntax)base.VisitLocalDeclarationStatement(node)!).WithModifiers(TokenList());
    }

    /// <summary>Counts the mutants of what has to be constant, so that all others keep their numbers, and leaves it as it is.</summary>
    private T Unchanged<T>(T node, SyntaxNode inside)
        where T : SyntaxNode
    {
        var before = _mutations.Count;
        Visit(inside);
        _left.AddRange(Enumerable.Range(first + before, _mutations.Count - before));
        return node;
    }

    private static bool IsNumeric(TypeSyntax type) =>
        type is PredefinedTypeSyntax named && named.Keyword.Kind() is SyntaxKind.IntKeyword or SyntaxKind.LongKeyword or SyntaxKind.DecimalKeyword
            or SyntaxKind.DoubleKeyword;

    /// <summary>What throws on a null that no caller passes.</summary>
    private static bool IsGuard(ExpressionSyntax expression) => expression.ToString().StartsWith("ArgumentNullException.", StringComparison.Ordinal);

    /// <summary>Whether the statement is what makes sure of a name that its condition declares: <c>if (x is not { } y) return;</c>.</summary>
    private static bool MakesSureOfName(StatementSyntax statement) =>
        statement is ReturnStatementSyntax or ContinueStatementSyntax or BreakStatementSyntax or YieldStatementSyntax { Expression: null }
        && statement.FirstAncestorOrSelf<IfStatementSyntax>() is { } condition && Changes.Declares(condition.Condition);

    private StatementSyntax WithoutStatement(StatementSyntax original, StatementSyntax rewritten)
    {
        if (MakesSureOfName(original)) return rewritten;
        if (Add(original, LeftOut) is not { } number) return rewritten;
        var condition = PrefixUnaryExpression(SyntaxKind.LogicalNotExpression, Question(number));
        return Block(IfStatement(condition, rewritten.WithoutTrivia())).WithAdditionalAnnotations(Marked([number])).WithTriviaFrom(original);
    }
}
