namespace WaterScript.Linting.Proof;

/// <summary>What the passes of one start claim on a date, and from when to when: zones, or controllers.</summary>
internal sealed class Claims
{
    private readonly (int What, long From, long To)[] _claims;

    /// <summary>Makes them.</summary>
    /// <param name="claims">What is claimed, in seconds from the midnight that begins the date; one after which nothing is claimed is left out.</param>
    public Claims(IEnumerable<(int What, long From, long To)> claims) => _claims = [.. Joined(claims.Where(claim => claim.From < claim.To).Order())];

    /// <summary>When the first begins.</summary>
    public long From => _claims.Length == 0 ? 0 : _claims.Min(claim => claim.From);

    /// <summary>When the last is over.</summary>
    public long To => _claims.Length == 0 ? 0 : _claims.Max(claim => claim.To);

    /// <summary>How many.</summary>
    public int Count => _claims.Length;

    /// <summary>Whether others claim the same thing at the same time.</summary>
    /// <param name="others">The others.</param>
    /// <param name="later">By how many seconds their midnight is later.</param>
    public bool Meet(Claims others, long later)
    {
        var (i, j) = (0, 0);
        while (i < _claims.Length && j < others._claims.Length)
        {
            var (one, other) = (_claims[i], others._claims[j]);
            if (one.What == other.What && one.From < other.To + later && other.From + later < one.To) return true;
            if (one.What < other.What || (one.What == other.What && one.To <= other.To + later)) i++;
            else j++;
        }

        return false;
    }

    /// <summary>Claims of one thing that overlap or touch are one, so that those of a thing follow one another.</summary>
    private static IEnumerable<(int What, long From, long To)> Joined(IEnumerable<(int What, long From, long To)> claims)
    {
        (int What, long From, long To)? open = null;
        foreach (var claim in claims)
        {
            if (open is { } last && last.What == claim.What && claim.From <= last.To)
            {
                open = last with { To = Math.Max(last.To, claim.To) };
                continue;
            }

            if (open is { } done) yield return done;
            open = claim;
        }

        if (open is { } rest) yield return rest;
    }
}
