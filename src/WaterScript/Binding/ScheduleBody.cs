using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>The statements of a schedule; of those that may stand once, a second one is reported.</summary>
internal sealed class ScheduleBody
{
    private readonly PlacedNode<ScheduleNode> _placed;
    private readonly List<StatementNode> _statements = [];

    public ScheduleBody(PlacedNode<ScheduleNode> placed, Scope scope)
    {
        _placed = placed;
        foreach (var statement in placed.Node.Body)
        {
            if (MayRepeat(statement) || _statements.Find(earlier => earlier.GetType() == statement.GetType()) is not { } first)
            {
                _statements.Add(statement);
                continue;
            }

            scope.Report(Finding.At(ReadingRules.StatedTwice, At(statement.Span), "stated twice", "the second time") with
            {
                Others = [new Label(At(first.Span), "the first time")],
                Help = "Delete one of the two.",
            });
        }
    }

    /// <summary>Its name.</summary>
    public string Name => _placed.Node.Name.Text;

    /// <summary>Where its name stands.</summary>
    public Location Origin => At(_placed.Node.Name.Span);

    /// <summary>Its file.</summary>
    public SourceText Source => _placed.Source;

    /// <summary>All statements, in order.</summary>
    public IReadOnlyList<StatementNode> Statements => _statements;

    /// <summary>The one statement of a type, or null.</summary>
    public T? One<T>()
        where T : StatementNode => All<T>().FirstOrDefault();

    /// <summary>The statements of a type.</summary>
    public IEnumerable<T> All<T>()
        where T : StatementNode => _statements.OfType<T>();

    /// <summary>Whether there is a statement of one of three types.</summary>
    public bool HasAny<T1, T2, T3>() => _statements.Exists(statement => statement is T1 or T2 or T3);

    /// <summary>Whether a place lies inside it.</summary>
    public bool Contains(Location location) => location.Source == Source && _placed.Node.Span.Contains(location.Span);

    /// <summary>A place in its file.</summary>
    public Location At(TextSpan span) => new(_placed.Source, span);

    private static bool MayRepeat(StatementNode statement) =>
        statement is OnNode or ExceptNode or KeepNode or StartAtNode or FinishByNode or StartAfterNode or AcceptNode;
}
