using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>The root file and all that it includes, each read once.</summary>
internal sealed class SourceSet
{
    private readonly ISourceReader _reader;
    private readonly FindingList _findings;
    private readonly Dictionary<string, FileNode?> _files = new(StringComparer.Ordinal);
    private readonly List<FileNode> _order = [];
    private readonly List<string> _open = [];

    private SourceSet(ISourceReader reader, FindingList findings)
    {
        _reader = reader;
        _findings = findings;
    }

    /// <summary>Reads them.</summary>
    /// <returns>The root file, then the others in the order in which they were reached.</returns>
    public static ImmutableArray<FileNode> Read(SourceText root, string rootPath, ISourceReader reader, FindingList findings)
    {
        var set = new SourceSet(reader, findings);
        set.Add(root, rootPath);
        return [.. set._order];
    }

    private void Add(SourceText source, string path)
    {
        var file = _reader.Parse(source, _findings);
        _files[path] = file;
        _order.Add(file);
        _open.Add(path);
        foreach (var include in file.Statements.OfType<IncludeNode>()) Follow(include, source, path);
        _open.RemoveAt(_open.Count - 1);
    }

    private void Follow(IncludeNode include, SourceText source, string from)
    {
        if (string.IsNullOrWhiteSpace(include.Path.Value)) return;
        var location = new Location(source, include.Path.Span);
        if (Resolve(from, include.Path.Value) is not { } path)
        {
            Report(ReadingRules.IncludeOutside, location, $"\"{include.Path.Value}\" lies outside the root folder",
                "Give a path from the folder of this file, with / between folders, that stays inside the root folder.");
            return;
        }

        if (_open.Contains(path))
        {
            Report(ReadingRules.Loop, location, $"\"{path}\" includes itself: {string.Join(" includes ", [.. _open.Skip(_open.IndexOf(path)), path])}",
                "Delete this line.");
            return;
        }

        if (_files.ContainsKey(path)) return;
        if (_files.Count > Limits.Includes)
        {
            Report(ReadingRules.OverLimit, location, $"more than {Limits.Includes} included files", "Put several of them into one.");
            return;
        }

        _files[path] = null;
        if (_reader.Read(path) is { } text) Add(text, path);
        else if (_reader.LeadsOutside(path))
            Report(ReadingRules.IncludeOutside, location, $"\"{path}\" leads outside the root folder", "Put the file itself in place of the link.");
        else if (_reader.WhyUnreadable(path) is { } why)
            Report(ReadingRules.IncludeMissing, location, $"cannot read \"{path}\": {why}", "Put a file that can be read in its place, or delete this line.");
        else Report(ReadingRules.IncludeMissing, location, $"there is no file \"{path}\"", "Check the spelling; the path begins in the folder of this file.");
    }

    /// <summary>A path from the folder of a file, as a path from the root folder; null when it leaves that folder or is none.</summary>
    private static string? Resolve(string from, string path)
    {
        if (path.Length == 0 || path.StartsWith('/') || path.Contains('\\', StringComparison.Ordinal) || path.Contains(':', StringComparison.Ordinal)
            || path.Contains('\0', StringComparison.Ordinal)) return null;
        var parts = from.Split('/')[..^1].ToList();
        foreach (var part in path.Split('/'))
        {
            if (part is "" or ".") continue;
            if (part != "..") parts.Add(part);
            else if (parts.Count > 0) parts.RemoveAt(parts.Count - 1);
            else return null;
        }

        return string.Join('/', parts);
    }

    private void Report(Rule rule, Location location, string heading, string help) =>
        _findings.Add(Finding.At(rule, location, heading) with { Help = help });
}
