using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>A part of a description, held as a tree.</summary>
/// <param name="Place">Where it begins.</param>
internal abstract record YamlNode(Mark Place)
{
    /// <summary>Reads what begins with the event at hand.</summary>
    /// <param name="events">The events.</param>
    /// <param name="left">How many values may still be read.</param>
    public static YamlNode Read(YamlEvents events, ref int left)
    {
        if (--left < 0)
            throw events.Here(string.Create(CultureInfo.InvariantCulture, $"the description has more than {Limits.DeployedValues} values"),
                YamlEvents.CompileAnew);
        var start = events.Current.Start;
        switch (events.Current)
        {
            case Scalar scalar:
                return new YamlValue(start, scalar.Value, scalar.Style == ScalarStyle.Plain);
            case SequenceStart:
                var items = new List<YamlNode>();
                while (events.Next() is not SequenceEnd) items.Add(Read(events, ref left));
                return new YamlList(start, items);
            case MappingStart:
                return ReadMap(events, start, ref left);
            default:
                throw events.Here("a value is missing", YamlEvents.CompileAnew);
        }
    }

    /// <summary>Writes it as the description was written.</summary>
    public abstract void Write(DocumentWriter writer);

    private static YamlMap ReadMap(YamlEvents events, Mark start, ref int left)
    {
        var entries = new OrderedDictionary<string, YamlNode>(StringComparer.Ordinal);
        while (events.NextKey("the description") is { } key)
        {
            var name = key.Value;
            if (entries.ContainsKey(name)) throw events.Here($"{Quoted.Of(name)} stands here twice", YamlEvents.CompileAnew);
            events.Next();
            entries.Add(name, Read(events, ref left));
        }

        return new YamlMap(start, entries);
    }
}

/// <summary>A value.</summary>
/// <param name="Place">Where it stands.</param>
/// <param name="Value">What it says.</param>
/// <param name="IsPlain">Whether it has no quotes, and may be a number or a truth.</param>
internal sealed record YamlValue(Mark Place, string Value, bool IsPlain) : YamlNode(Place)
{
    private const NumberStyles Form = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;

    /// <summary>The number that it is; null where it is none.</summary>
    public decimal? Number =>
        IsPlain && Value.Length > 0 && (char.IsAsciiDigit(Value[0]) || Value[0] == '-')
        && decimal.TryParse(Value, Form, CultureInfo.InvariantCulture, out var number) ? number : null;

    public override void Write(DocumentWriter writer)
    {
        if (Number is { } number) writer.Number(number);
        else if (IsPlain && Value is "true" or "false") writer.Flag(Value == "true");
        else writer.Text(Value);
    }
}

/// <summary>A list.</summary>
/// <param name="Place">Where it begins.</param>
/// <param name="Items">What is in it.</param>
internal sealed record YamlList(Mark Place, List<YamlNode> Items) : YamlNode(Place)
{
    public override void Write(DocumentWriter writer)
    {
        writer.StartList();
        foreach (var item in Items) item.Write(writer);
        writer.EndList();
    }
}

/// <summary>A map.</summary>
/// <param name="Place">Where it begins.</param>
/// <param name="Entries">What is in it.</param>
internal sealed record YamlMap(Mark Place, OrderedDictionary<string, YamlNode> Entries) : YamlNode(Place)
{
    public override void Write(DocumentWriter writer)
    {
        writer.StartMap();
        foreach (var (key, value) in Entries)
        {
            writer.Key(key);
            value.Write(writer);
        }

        writer.EndMap();
    }

    /// <summary>The text of an entry; null where there is none.</summary>
    public string? Text(string key) => Entries.TryGetValue(key, out var node) ? (node as YamlValue ?? throw Wrong(node, key, "a text")).Value : null;

    /// <summary>The text of an entry that has to be there.</summary>
    public string Needed(string key) => Text(key) is { Length: > 0 } text ? text : throw YamlEvents.At(Place, $"{key} is missing", YamlEvents.CompileAnew);

    /// <summary>The number of an entry; null where there is none.</summary>
    public decimal? Number(string key, decimal most)
    {
        if (!Entries.TryGetValue(key, out var node)) return null;
        return node is YamlValue { Number: >= 0 and var number } && number <= most
            ? number
            : throw Wrong(node, key, string.Create(CultureInfo.InvariantCulture, $"a number from 0 to {most}"));
    }

    /// <summary>Whether an entry is there and true.</summary>
    public bool Flag(string key)
    {
        if (!Entries.TryGetValue(key, out var node)) return false;
        return node is YamlValue { IsPlain: true, Value: "true" or "false" } value ? value.Value == "true" : throw Wrong(node, key, "true or false");
    }

    private static DeployedException Wrong(YamlNode node, string key, string needed) =>
        YamlEvents.At(node.Place, $"{key} is not {needed}", YamlEvents.CompileAnew);
}
