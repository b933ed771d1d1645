namespace WaterScript.Documents.Writers;

/// <summary>How a map or a list stands on the page, where the format leaves a choice.</summary>
internal enum Layout
{
    /// <summary>A line for each entry.</summary>
    Lines,

    /// <summary>All of it on one line.</summary>
    OneLine,
}

/// <summary>Writes a tree of maps, lists and values from top to bottom. A map's entries are each a <see cref="Key"/> and then a value.</summary>
internal abstract class DocumentWriter : IDisposable
{
    /// <summary>Begins a map.</summary>
    public abstract void StartMap(Layout layout = Layout.Lines);

    /// <summary>Ends the map begun last.</summary>
    public abstract void EndMap();

    /// <summary>Begins a list.</summary>
    public abstract void StartList(Layout layout = Layout.Lines);

    /// <summary>Ends the list begun last.</summary>
    public abstract void EndList();

    /// <summary>Names the value that follows: lower-case letters, digits and underscores.</summary>
    public abstract void Key(string name);

    /// <summary>Writes a text.</summary>
    public abstract void Text(string value);

    /// <summary>Writes a text of printable ASCII characters that is no word: a time, a date, a hash.</summary>
    public abstract void Ascii(ReadOnlySpan<byte> value);

    /// <summary>Writes a whole number.</summary>
    public abstract void Number(long value);

    /// <summary>Writes a number with as many decimals as it has.</summary>
    public abstract void Number(decimal value);

    /// <summary>Writes true or false.</summary>
    public abstract void Flag(bool value);

    /// <summary>Closes the document and hands all of it to the output.</summary>
    public abstract void Dispose();

    /// <summary>Writes an entry, unless there is nothing to say.</summary>
    public void Entry(string key, string? value)
    {
        if (value is null) return;
        Key(key);
        Text(value);
    }

    /// <summary>Writes an entry, unless there is nothing to say.</summary>
    public void Entry(string key, long? value)
    {
        if (value is not { } number) return;
        Key(key);
        Number(number);
    }

    /// <summary>Writes an entry, unless there is nothing to say.</summary>
    public void Entry(string key, decimal? value)
    {
        if (value is not { } number) return;
        Key(key);
        Number(number);
    }

    /// <summary>Writes an entry.</summary>
    public void Entry(string key, ReadOnlySpan<byte> value)
    {
        Key(key);
        Ascii(value);
    }

    /// <summary>Writes an entry that is true or false.</summary>
    public void Entry(string key, bool value)
    {
        Key(key);
        Flag(value);
    }

    /// <summary>Writes an entry that is true, or nothing.</summary>
    public void EntryIf(string key, bool value)
    {
        if (value) Entry(key, value);
    }

    /// <summary>Writes an entry that is a list with a value for each item.</summary>
    public void List<T>(string key, IEnumerable<T> items, Action<T> write, Layout layout = Layout.Lines)
    {
        Key(key);
        StartList(layout);
        foreach (var item in items) write(item);
        EndList();
    }

    /// <summary>Writes an entry that is a map.</summary>
    public void Map(string key, Action write, Layout layout = Layout.Lines)
    {
        Key(key);
        Map(write, layout);
    }

    /// <summary>Writes a map.</summary>
    public void Map(Action write, Layout layout = Layout.Lines)
    {
        StartMap(layout);
        write();
        EndMap();
    }
}
