using System.Collections.Immutable;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>A statement of a source, or a block of them.</summary>
internal sealed record Statement(string Text, ImmutableArray<Statement>? Body = null)
{
    public static Statement Block(string head, IEnumerable<Statement> body) => new(head, [.. body]);

    /// <summary>The lines of this statement and of what stands in it.</summary>
    public IEnumerable<string> Lines(string indent = "")
    {
        if (Body is not { } body) return [indent + Text];
        return [$"{indent}{Text} {{", .. body.SelectMany(statement => statement.Lines(indent + "  ")), $"{indent}}}"];
    }

    /// <summary>The same without one of the statements in it, at any depth.</summary>
    public IEnumerable<Statement> Smaller() => Body is not { } body ? [] : Smaller(body).Select(less => this with { Body = less });

    public static IEnumerable<ImmutableArray<Statement>> Smaller(ImmutableArray<Statement> statements)
    {
        for (var index = 0; index < statements.Length; index++) yield return statements.RemoveAt(index);
        for (var index = 0; index < statements.Length; index++)
        {
            foreach (var less in statements[index].Smaller()) yield return statements.SetItem(index, less);
        }
    }
}

/// <summary>A source as statements, so that one can be taken out after the other until only what a failure needs is left.</summary>
internal sealed record Sketch(ImmutableArray<Statement> Statements)
{
    public string Text => string.Join('\n', Statements.SelectMany(statement => statement.Lines())) + "\n";

    public IEnumerable<Sketch> Smaller() => Statement.Smaller(Statements).Select(statements => new Sketch(statements));

    /// <summary>The same with a statement in each block of a kind, in place of the one that begins with the same word.</summary>
    public Sketch With(string kind, string statement) => Change(kind, block => block with
    {
        Body = [.. block.Body!.Value.Where(each => each.Text.Split(' ')[0] != statement.Split(' ')[0]), new Statement(statement)],
    });

    /// <summary>The same without what begins with a word.</summary>
    public Sketch Without(string word) => new([.. Statements.Where(statement => !statement.Text.StartsWith(word + " ", StringComparison.Ordinal))]);

    /// <summary>The same with one more block of one line.</summary>
    public Sketch And(string line) => new(Statements.Add(new Statement(line)));

    /// <summary>The same with its last schedule once more, under another name.</summary>
    public Sketch AndOneScheduleTwice() =>
        new(Statements.Add(Statements.Last(statement => statement.Text.StartsWith("schedule ", StringComparison.Ordinal)) with { Text = "schedule twin" }));

    /// <summary>The same with a valve, on an output of its own, for each zone that is watered by hand.</summary>
    public Sketch WithValves()
    {
        var next = 1;
        return Change("zone", block => block with
        {
            Body = [.. block.Body!.Value.Select(each => each.Text == "hand-watered" ? new Statement($"output {4 + next++} of c0") : each)],
        });
    }

    private Sketch Change(string kind, Func<Statement, Statement> change) =>
        new([.. Statements.Select(statement => statement.Text.StartsWith(kind + " ", StringComparison.Ordinal) ? change(statement) : statement)]);

    /// <summary>What a failure prints.</summary>
    public override string ToString() => "\n" + Text;
}
