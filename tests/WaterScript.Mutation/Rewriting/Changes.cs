using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace WaterScript.Mutation.Rewriting;

/// <summary>What becomes of an operator, a number, a name.</summary>
internal static class Changes
{
    /// <summary>A bound moves by one, and a comparison turns round.</summary>
    public static SyntaxKind[] OfComparison(SyntaxKind kind) => kind switch
    {
        SyntaxKind.LessThanToken => [SyntaxKind.LessThanEqualsToken, SyntaxKind.GreaterThanEqualsToken],
        SyntaxKind.LessThanEqualsToken => [SyntaxKind.LessThanToken, SyntaxKind.GreaterThanToken],
        SyntaxKind.GreaterThanToken => [SyntaxKind.GreaterThanEqualsToken, SyntaxKind.LessThanEqualsToken],
        SyntaxKind.GreaterThanEqualsToken => [SyntaxKind.GreaterThanToken, SyntaxKind.LessThanToken],
        _ => [],
    };

    public static SyntaxKind[] OfOperator(SyntaxKind kind) => kind switch
    {
        SyntaxKind.EqualsEqualsToken => [SyntaxKind.ExclamationEqualsToken],
        SyntaxKind.ExclamationEqualsToken => [SyntaxKind.EqualsEqualsToken],
        SyntaxKind.PlusToken => [SyntaxKind.MinusToken],
        SyntaxKind.MinusToken => [SyntaxKind.PlusToken],
        SyntaxKind.AsteriskToken => [SyntaxKind.SlashToken],
        SyntaxKind.SlashToken => [SyntaxKind.AsteriskToken],
        SyntaxKind.PercentToken => [SyntaxKind.AsteriskToken],
        SyntaxKind.AmpersandAmpersandToken => [SyntaxKind.BarBarToken],
        SyntaxKind.BarBarToken => [SyntaxKind.AmpersandAmpersandToken],
        SyntaxKind.PlusEqualsToken => [SyntaxKind.MinusEqualsToken],
        SyntaxKind.MinusEqualsToken => [SyntaxKind.PlusEqualsToken],
        SyntaxKind.AsteriskEqualsToken => [SyntaxKind.SlashEqualsToken],
        SyntaxKind.SlashEqualsToken => [SyntaxKind.AsteriskEqualsToken],
        _ => OfComparison(kind),
    };

    /// <summary>The other of two methods that take and give the same; null where there is none.</summary>
    public static string? OfMethod(string name) => name switch
    {
        "Min" => "Max",
        "Max" => "Min",
        "Floor" => "Ceiling",
        "Ceiling" => "Floor",
        "Any" => "All",
        "All" => "Any",
        _ => null,
    };

    /// <summary>A whole number grows by one, another by a hundredth; null for a number written otherwise than in digits.</summary>
    public static SyntaxToken? OfNumber(SyntaxToken token) => token.Value switch
    {
        int value and < int.MaxValue => SyntaxFactory.Literal(value + 1),
        long value and < long.MaxValue => SyntaxFactory.Literal(value + 1),
        decimal value and < 1e20m => SyntaxFactory.Literal(value == 0 ? 1 : value * 1.01m),
        double value => SyntaxFactory.Literal((value == 0 ? 1 : value * 1.01).ToString("R", CultureInfo.InvariantCulture) + "d", value == 0 ? 1 : value * 1.01),
        _ => null,
    };

    /// <summary>Whether a name is declared inside that is seen outside: a second copy would declare it twice.</summary>
    public static bool Declares(SyntaxNode node) =>
        node.DescendantNodesAndSelf(inner => inner is not (AnonymousFunctionExpressionSyntax or SwitchExpressionArmSyntax))
            .Any(inner => inner is SingleVariableDesignationSyntax or DeclarationExpressionSyntax);

    /// <summary>Whether it is the end of a chain like <c>a?.B.Any(c)</c>, which cannot stand by itself.</summary>
    public static bool BindsOutside(SyntaxNode node) =>
        node.DescendantNodes(inner => inner is not ConditionalAccessExpressionSyntax)
            .Any(inner => inner is MemberBindingExpressionSyntax or ElementBindingExpressionSyntax);
}
