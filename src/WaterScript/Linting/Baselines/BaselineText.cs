using System.Globalization;
using WaterScript.Linting.Engine;

namespace WaterScript.Linting.Baselines;

/// <summary>The form in which a baseline is kept: a line for each file that was looked at, then one for each finding, with tabs between what it has.</summary>
internal static class BaselineText
{
    private const string Name = "# WaterScript baseline ";
    private const string Heading = Name + "2: rule, times, excess, file, line, heading. What is in it and no worse does not count.";
    private const string FileMark = "file";

    /// <summary>Whether a text is one in a form that is not read any more.</summary>
    public static bool IsOld(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith(Name, StringComparison.Ordinal) && Read(text) is null;
    }

    /// <summary>Reads the files and the findings; null where the text is no baseline.</summary>
    public static (List<string> Files, List<BaselineEntry> Entries)? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        if (lines[0] != Heading) return null;
        var (files, entries) = (new List<string>(), new List<BaselineEntry>());
        foreach (var line in lines.Skip(1))
        {
            if (line.Split('\t') is [FileMark, var file]) files.Add(Raw(file));
            else if (EntryOf(line) is { } entry) entries.Add(entry);
            else return null;
        }

        return (files, entries);
    }

    /// <summary>Writes them, in order of files, lines and rules.</summary>
    public static void Write(TextWriter output, IEnumerable<string> files, IEnumerable<BaselineEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Heading + "\n");
        foreach (var file in files.Order(StringComparer.Ordinal)) output.Write($"{FileMark}\t{OnOneLine(file)}\n");
        foreach (var line in entries.OrderBy(entry => entry.Key.Path, StringComparer.Ordinal).ThenBy(entry => entry.Key.Line, StringComparer.Ordinal)
            .ThenBy(entry => entry.Key.Rule, StringComparer.Ordinal).ThenBy(entry => entry.Extent.Excess).ThenBy(entry => entry.Extent.Times).Select(LineOf))
        {
            output.Write(line);
        }
    }

    private static string LineOf(BaselineEntry entry)
    {
        var ((rule, path, source), (times, excess), heading) = (entry.Key, entry.Extent, entry.Heading);
        return string.Create(CultureInfo.InvariantCulture, $"{rule}\t{times}\t{excess}\t{OnOneLine(path)}\t{source}\t{OnOneLine(heading)}\n");
    }

    private static BaselineEntry? EntryOf(string line)
    {
        if (line.Split('\t', 6) is not [var rule, var often, var far, var path, var source, var heading]) return null;
        return long.TryParse(often, NumberStyles.None, CultureInfo.InvariantCulture, out var times)
            && decimal.TryParse(far, NumberStyles.Float, CultureInfo.InvariantCulture, out var excess)
            ? new BaselineEntry(new FindingKey(rule, Raw(path), source), new FindingExtent(times, excess), Raw(heading))
            : null;
    }

    /// <summary>
    /// A path may hold what ends a line or a column; it is written as <c>\u000a</c>, and so is the backslash, so that no two paths become one.
    /// </summary>
    private static string OnOneLine(string text) => text.Any(IsEscaped)
        ? string.Concat(text.Select(letter => IsEscaped(letter) ? string.Create(CultureInfo.InvariantCulture, $"\\u{(int)letter:x4}") : letter.ToString()))
        : text;

    private static string Raw(string text)
    {
        const int length = 6;
        var parts = text.Split('\\');
        for (var index = 1; index < parts.Length; index++)
        {
            var part = parts[index];
            if (part.Length >= length - 1 && int.TryParse(part.AsSpan(1, 4), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var letter))
                parts[index] = (char)letter + part[(length - 1)..];
        }

        return string.Concat(parts);
    }

    private static bool IsEscaped(char letter) => char.IsControl(letter) || letter is '\\' or '\u2028' or '\u2029';
}
