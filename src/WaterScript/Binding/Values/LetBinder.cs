using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Reads the <c>let</c> statements: quantities, dates, and dates calculated from other dates in any order.</summary>
internal sealed class LetBinder
{
    private readonly Scope _scope;
    private readonly Dictionary<string, PlacedNode<LetNode>> _nodes;
    private readonly List<string> _open = [];

    private LetBinder(IEnumerable<PlacedNode<LetNode>> nodes, Scope scope)
    {
        _scope = scope;
        _nodes = nodes.ToDictionary(let => let.Node.Name.Text, StringComparer.Ordinal);
    }

    /// <summary>Reads them into the scope's table.</summary>
    public static void Bind(IEnumerable<PlacedNode<LetNode>> nodes, Scope scope)
    {
        var binder = new LetBinder(nodes, scope);
        foreach (var name in binder._nodes.Keys) binder.Read(name);
    }

    private Let? Read(string name)
    {
        if (_scope.Lets.Find(name) is { } known) return known;
        if (!_nodes.TryGetValue(name, out var node)) return null;
        var let = new Let(name, node.At(node.Node.Name.Span));
        if (LanguageWords.Contains(name))
        {
            _scope.Report(ReadingRules.DuplicateName, let.Origin, $"\"{name}\" is a word of the language", help: "Give it another name.");
        }

        _open.Add(name);
        ReadValue(let, node);
        _open.RemoveAt(_open.Count - 1);
        _scope.Lets.Add(let);
        return let;
    }

    private void ReadValue(Let let, PlacedNode<LetNode> node)
    {
        var row = node.Node.Value;
        if (row.Tokens[0].Kind == TokenKind.Date) let.Date = Iso(row, node);
        else if (row.Tokens[0].Kind == TokenKind.Word) let.Date = FromAnother(row, node);
        else let.Quantity = QuantityOf(row, node);
    }

    private LocalDate? Iso(RowNode row, PlacedNode<LetNode> node) =>
        DateReader.Iso(row.Tokens[0].Text, node.At(row.Tokens[0].Span), _scope) is { } date ? Shifted(date, row, node) : null;

    private LocalDate? FromAnother(RowNode row, PlacedNode<LetNode> node)
    {
        var token = row.Tokens[0];
        if (_open.Contains(token.Text))
        {
            var circle = string.Join(", ", _open.Skip(_open.IndexOf(token.Text)).Append(token.Text));
            _scope.Report(ReadingRules.Loop, node.At(token.Span), $"\"{token.Text}\" is calculated from itself: {circle}", help: "Give one of them as a date.");
            return null;
        }

        if (_open.Count >= Limits.NameDepth)
        {
            _scope.Report(ReadingRules.OverLimit, node.At(token.Span), $"more than {Limits.NameDepth} dates are calculated from one another",
                help: "Give this one as a date.");
            return null;
        }

        if (Read(token.Text) is not { } other)
        {
            _scope.ReportUnknown(node.At(token.Span), $"no date is called \"{token.Text}\"", token.Text, _nodes.Keys);
            return null;
        }

        other.IsUsed = true;
        if (other.Quantity is not null)
        {
            _scope.Report(ReadingRules.OutOfRange, node.At(token.Span), $"\"{token.Text}\" is a quantity", "a let of a quantity may not name another",
                "Write the number and its unit.");
            return null;
        }

        return other.Date is { } date ? Shifted(date, row, node) : null;
    }

    private LocalDate? Shifted(LocalDate date, RowNode row, PlacedNode<LetNode> node)
    {
        if (row.Tokens.Length == 1) return date;
        var sign = row.Tokens[1];
        if (sign.Kind is not (TokenKind.Plus or TokenKind.Minus) || row.Tokens.Length == 2)
        {
            _scope.Report(ReadingRules.Syntax, node.At(sign.Span), $"\"{sign.Text}\" does not belong here", help: "Count dates, such as `sown + 2 weeks`.");
            return null;
        }

        var offset = new RowNode(TextSpan.Cover(row.Tokens[2].Span, row.Tokens[^1].Span), row.Tokens[2..]);
        if (new DateReader(_scope, node.Source).OffsetDays(offset) is not { } days) return null;
        return DateReader.Shifted(date, sign.Kind == TokenKind.Minus ? -days : days, node.At(row.Span), _scope);
    }

    private Quantity? QuantityOf(RowNode row, PlacedNode<LetNode> node)
    {
        var cursor = new RowCursor(_scope, node.Source, row, "let settle = 5 min");
        var quantity = cursor.AnyQuantity();
        cursor.End();
        return cursor.HasFailed ? null : quantity;
    }
}
