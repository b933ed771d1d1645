using System.Collections;
using System.Collections.Immutable;

namespace WaterScript.Timetables;

/// <summary>Numbers of runs, in order. Mostly there is one, which takes no memory of its own.</summary>
internal readonly struct RunNumbers : IReadOnlyList<long>
{
    private readonly long _first;
    private readonly ImmutableArray<long> _more;

    /// <summary>At least one run.</summary>
    /// <param name="first">Its number.</param>
    /// <param name="more">Those of the others; default for none.</param>
    internal RunNumbers(long first, ImmutableArray<long> more = default)
    {
        _first = first;
        _more = more;
    }

    /// <summary>How many there are; at least one.</summary>
    public int Count => 1 + (_more.IsDefault ? 0 : _more.Length);

    /// <summary>The number at a place, from 0.</summary>
    public long this[int index] => index == 0 ? _first : _more[index - 1];

    /// <inheritdoc/>
    public IEnumerator<long> GetEnumerator()
    {
        for (var i = 0; i < Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
