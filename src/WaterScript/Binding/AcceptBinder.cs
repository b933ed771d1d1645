using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Findings that the user accepts, at the top of a file or directly in a block, schedule, sequence or restriction.</summary>
internal sealed class AcceptBinder(Scope scope)
{
    private readonly ImmutableArray<Acceptance>.Builder _acceptances = ImmutableArray.CreateBuilder<Acceptance>();

    /// <summary>Reads those of all files.</summary>
    public ImmutableArray<Acceptance> Bind(IEnumerable<FileNode> files)
    {
        foreach (var file in files)
        {
            foreach (var statement in file.Statements) Visit(statement, file);
        }

        return _acceptances.DrainToImmutable();
    }

    private void Visit(StatementNode statement, FileNode file)
    {
        var inside = new Location(file.Source, statement.Span);
        switch (statement)
        {
            case AcceptNode accept:
                Add(accept, new Location(file.Source, file.Span));
                break;
            case BlockNode block:
                AddAll(block.Body, inside);
                foreach (var inner in block.Body.OfType<BlockNode>()) AddAll(inner.Body, new Location(file.Source, inner.Span));
                break;
            case ScheduleNode schedule:
                AddAll(schedule.Body, inside);
                break;
            case SequenceNode sequence:
                AddAll(sequence.Accepts, inside);
                break;
            case RestrictionNode restriction:
                AddAll(restriction.Body, inside);
                break;
        }
    }

    private void AddAll(IEnumerable<StatementNode> statements, Location inside)
    {
        foreach (var accept in statements.OfType<AcceptNode>()) Add(accept, inside);
    }

    private void Add(AcceptNode node, Location inside)
    {
        var source = inside.Source;
        var until = node.Until is null ? null : new DateReader(scope, source).Dated(node.Until);
        _acceptances.Add(new Acceptance(new Location(source, node.Span), new Location(source, node.Rule.Span), node.Because.Value, until, inside));
    }
}
