using System.Collections.Immutable;
using WaterScript.Editing.Completion;
using WaterScript.Language;

namespace WaterScript.Editing.Hints;

/// <summary>How a statement is written, and which part of it comes next.</summary>
/// <param name="Parts">The words and values, as the reference shows them.</param>
/// <param name="Current">Index of the part that comes next.</param>
internal sealed record Form(ImmutableArray<string> Parts, int Current)
{
    private static readonly ImmutableArray<string> Forms =
    [
        "on|DAYS", "every|day", "every|N|days", "every|N|weeks|on|DAYS", "from|DATE|to|DATE", "except|DAYS", "except every|N|weeks|on|DAYS|from|DATE",
            "skip|SCHEDULE|on|DAYS|because|\"REASON\"", "days|NAME|=|DAYS", "keep to|RESTRICTION", "start at|TIME|on|DAYS",
            "start after|SCHEDULE|+|TIME",
        "finish by|TIME|on|DAYS", "repeat every|INTERVAL|for|N|passes", "repeat every|INTERVAL|until|TIME|next day", "cut off at|TIME|next day",
            "scale|NAME or SHARE",
        "water|ZONES|for|TIME|through|INJECTOR", "water|ZONES|for|TIME|through|INJECTOR|with|AMOUNT",
            "water|ZONES|with|AMOUNT|through|INJECTOR", "water|ZONES|for exactly|TIME|through|INJECTOR",
            "water|ZONES|with exactly|AMOUNT|through|INJECTOR", "pause|TIME", "cycle|TIME|soak|TIME", "repeat|N|times",
            "run|SEQUENCE",
        "hold|ZONES|from|DATE|for|TIME|because|\"REASON\"", "hold|ZONES|from|DATE|to|DATE|because|\"REASON\"", "closed from|DATE|to|DATE|because|\"REASON\"",
        "accept|RULE|because|\"REASON\"|until|DATE", "let|NAME|=|VALUE", "group|NAME|=|ZONES", "allow between|TIME|and|TIME", "allow on|DAYS", "for|ZONES",
        "at most|N|days a week", "exempt|ZONES|from|DATE|to|DATE", "extra|DATE|TIME|because|\"REASON\"",
    ];

    /// <summary>All of it on one line.</summary>
    public string Text => string.Join(' ', Parts);

    /// <summary>The form of the statement that a cursor stands in; null where there is none.</summary>
    public static Form? At(CursorPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (place.Before.IsEmpty) return null;
        var written = string.Join(' ', place.Before.Select(lexeme => lexeme.Text));
        var fitting = Forms.Select(form => form.Split('|')).Where(parts => written == parts[0]
            || written.StartsWith(parts[0] + " ", StringComparison.Ordinal)).ToList();
        if (fitting.Count == 0) return OfProperty(place);
        var best = fitting.OrderByDescending(parts => Keywords(parts).Count(word => place.Has(word))).First();
        return new Form([.. best], Math.Min(Next(best, written), best.Length - 1));
    }

    /// <summary>The part after the last keyword that is written.</summary>
    private static int Next(string[] parts, string written)
    {
        var next = 1;
        for (var i = 1; i < parts.Length; i++)
        {
            if (IsKeyword(parts[i]) && written.Contains($" {parts[i]}", StringComparison.Ordinal)) next = i + 1;
        }

        return next;
    }

    private static IEnumerable<string> Keywords(string[] parts) => parts.Skip(1).Where(IsKeyword).Select(part => part.Split(' ')[0]);

    private static bool IsKeyword(string part) => !part.Any(char.IsAsciiLetterUpper);

    private static Form? OfProperty(CursorPlace place)
    {
        var schema = Schema.Blocks.FirstOrDefault(each => each.Kind.Split(' ')[0] == place.Block
            && each.Properties.Any(property => property.Name == place.First));
        return schema?.Properties.FirstOrDefault(each => each.Name == place.First) is { } known
            ? new Form([place.First, known.Form[(known.Name.Length)..].Trim()], 1) : null;
    }
}
