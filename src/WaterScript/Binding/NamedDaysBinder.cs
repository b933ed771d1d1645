using WaterScript.Binding.Values;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax;

namespace WaterScript.Binding;

/// <summary>Reads the <c>days</c> statements into the scope's table.</summary>
internal static class NamedDaysBinder
{
    /// <summary>Reads them, whether anything asks for them or not.</summary>
    public static void Bind(IEnumerable<PlacedNode<NamedDaysNode>> nodes, Scope scope)
    {
        ArgumentNullException.ThrowIfNull(nodes);
        ArgumentNullException.ThrowIfNull(scope);
        foreach (var placed in nodes)
        {
            var name = placed.Node.Name;
            scope.NamedDays.Add(name.Text, placed.At(name.Span), () => new DayBinder(scope, placed.Source).Bind(placed.Node.Days));
            if (LanguageWords.Contains(name.Text))
                scope.Report(ReadingRules.DuplicateName, placed.At(name.Span), $"\"{name.Text}\" is a word of the language", help: "Give it another name.");
        }

        foreach (var name in scope.NamedDays.Names) scope.NamedDays.Read(name);
    }
}
