using System.Globalization;
using WaterScript.Diagnostics;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>The rows of one list of a timetable: maps with known keys, one at a time. The list begins with the event at hand.</summary>
internal sealed class DeployedRows
{
    private readonly YamlEvents _events;
    private readonly string _list;
    private readonly string[] _keys;
    private readonly string?[] _values;
    private readonly bool[] _isPlain;
    private readonly int _needed;

    /// <param name="events">The events.</param>
    /// <param name="list">What the list is called.</param>
    /// <param name="needed">The keys that each row has.</param>
    /// <param name="others">Those that it may have.</param>
    public DeployedRows(YamlEvents events, string list, string[] needed, string[] others)
    {
        (_events, _list, _keys, _needed) = (events, list, [.. needed, .. others], needed.Length);
        _values = new string?[_keys.Length];
        _isPlain = new bool[_keys.Length];
        if (events.Current is not SequenceStart) throw events.Wrong(list, "a list");
    }

    /// <summary>Where the row at hand begins.</summary>
    public Mark Place { get; private set; }

    /// <summary>Reads the next row; false where the list ends.</summary>
    /// <param name="left">How many rows may still be read.</param>
    public bool TryNext(ref int left)
    {
        if (_events.Next() is SequenceEnd) return false;
        if (_events.Current is not MappingStart) throw _events.Wrong($"an entry of {_list}", "a map");
        Place = _events.Current.Start;
        if (--left < 0)
            throw _events.Here(string.Create(CultureInfo.InvariantCulture, $"more than {Limits.DeployedRows} runs, openings and switchings"),
                "compile fewer days");
        Array.Clear(_values);
        while (_events.NextKey(_list) is { } key) Take(key);
        for (var index = 0; index < _needed; index++)
        {
            if (_values[index] is null) throw Problem($"{_keys[index]} is missing");
        }

        return true;
    }

    /// <summary>A value as it is written; empty where there is none.</summary>
    public string this[int key] => _values[key] ?? "";

    /// <summary>Whether there is a value.</summary>
    public bool Has(int key) => _values[key] is not null;

    /// <summary>A whole number.</summary>
    public long Number(int key, long least, long most) =>
        _isPlain[key] && long.TryParse(this[key], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number >= least
            && number <= most
            ? number
            : throw Problem(string.Create(CultureInfo.InvariantCulture, $"{_keys[key]} is {Quoted.Of(this[key])}, not a whole number from {least} to {most}"));

    /// <summary>An instant in Unix seconds.</summary>
    public long Instant(int key) =>
        DeployedMoments.TryInstant(this[key], out var instant)
        ? instant
        : throw Problem($"{_keys[key]} is {Quoted.Of(this[key])}, not a time like 2026-05-01T06:00:00+01:00");

    /// <summary>A date in days since 1970-01-01.</summary>
    public int Date(int key) =>
        DeployedMoments.TryDate(this[key], out var day) ? day : throw Problem($"{_keys[key]} is {Quoted.Of(this[key])}, not a date like 2026-05-01");

    /// <summary>A problem with the row at hand.</summary>
    public DeployedException Problem(string what) => YamlEvents.At(Place, what, YamlEvents.CompileAnew);

    private void Take(Scalar key)
    {
        var index = Array.IndexOf(_keys, key.Value);
        if (index < 0) throw _events.Here($"{_list} have no {Quoted.Of(key.Value)}", YamlEvents.CompileAnew);
        if (_values[index] is not null) throw _events.Here($"{Quoted.Of(key.Value)} stands here twice", YamlEvents.CompileAnew);
        _values[index] = _events.Next() switch
        {
            Scalar value => Value(value, index),
            SequenceStart when _keys[index] == "runs" => Numbers(),
            _ => throw _events.Wrong(_keys[index], "a value"),
        };
    }

    private string Value(Scalar scalar, int index)
    {
        _isPlain[index] = scalar.Style == ScalarStyle.Plain;
        return scalar.Value;
    }

    /// <summary>Numbers of runs with a space between them, as a table has them: passes that touch are one opening, so there may be as many as runs.</summary>
    private string Numbers()
    {
        var numbers = new List<string>();
        while (_events.Next() is not SequenceEnd)
        {
            if (_events.Current is not Scalar number) throw _events.Wrong("the number of a run", "a value");
            if (numbers.Count == Limits.DeployedRows) throw _events.Here("an opening with more runs than a timetable can have", YamlEvents.CompileAnew);
            numbers.Add(number.Value);
        }

        return string.Join(' ', numbers);
    }
}
