namespace WaterScript.Cli.Files;

/// <summary>Logs that are read side by side, each only as far as it is asked for.</summary>
internal sealed class LogTexts(Terminal terminal) : IDisposable
{
    private readonly List<TextReader> _open = [];

    /// <summary>Opens a log, or standard input.</summary>
    /// <param name="path">A file, or <see cref="SiteSource.Standard"/>.</param>
    /// <exception cref="CommandException">The file cannot be read.</exception>
    public TextReader Open(string path)
    {
        if (path != SiteSource.Standard && !File.Exists(terminal.Surroundings.At(path))) throw new CommandException($"no such file: {path}");
        var text = path == SiteSource.Standard ? new StreamReader(terminal.OpenInput()) : new StreamReader(RegularFile.OpenNamed(path, terminal.Surroundings));
        _open.Add(text);
        return text;
    }

    /// <inheritdoc/>
    public void Dispose() => _open.ForEach(text => text.Dispose());
}
