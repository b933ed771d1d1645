using System.Collections.Immutable;

namespace WaterScript.Linting.Engine;

/// <summary>What a rule could not judge, of what, and which statement would let it.</summary>
/// <param name="Concern">What people would look for.</param>
/// <param name="What">What exactly it is, in a few words: <c>holding current</c>.</param>
/// <param name="Of">The parts of the site for which it holds, of one kind; none where it holds for the whole site.</param>
/// <param name="Add">The statement to add; empty where none would do.</param>
internal sealed record Gap(Concern Concern, string What, ImmutableArray<Thing> Of, string Add)
{
    /// <summary>Why no statement would do, in a few words; empty where one would.</summary>
    public string Because { get; init; } = "";

    /// <summary>What to do, or why nothing can be done: <c>add wire</c>.</summary>
    public string Remedy => Add.Length > 0 ? $"add {Add}" : Because;

    /// <summary>All of it: <c>wires of zones herbs, vines (add wire)</c>.</summary>
    public string Sentence => Of.IsEmpty
        ? $"{What} ({Remedy})"
        : $"{What} of {(Of.Length == 1 ? Of[0].Kind : Plural(Of[0].Kind))} {string.Join(", ", Of.Select(thing => thing.Name))} ({Remedy})";

    /// <summary>A gap for each statement that some parts of a site lack, in their order.</summary>
    /// <param name="concern">What people would look for.</param>
    /// <param name="what">What exactly it is.</param>
    /// <param name="lacking">Each part, with the statement that it lacks; null for none.</param>
    public static IEnumerable<Gap> Each(Concern concern, string what, IEnumerable<(Thing Thing, string? Lacks)> lacking) => lacking
        .Where(part => part.Lacks is not null)
        .GroupBy(part => (part.Thing.Kind, part.Lacks), part => part.Thing)
        .Select(parts => new Gap(concern, what, [.. parts.Distinct()], parts.Key.Lacks!));

    /// <summary>The word for several of a kind.</summary>
    public static string Plural(string kind) => kind.EndsWith('y') ? kind[..^1] + "ies" : kind + "s";
}
