using System.Text;

namespace WaterScript.Text.Lines;

/// <summary>
/// What programs that run checks on every change read as a command in a line of a log: <c>::name …::</c> at its beginning, after spaces too
/// (GitHub), and <c>##[name]</c> or <c>##word[name …]</c>, some of them anywhere (GitHub, Azure Pipelines, TeamCity).
/// </summary>
internal static class LogCommands
{
    private const string Start = "::";
    private const string Hashes = "##";

    /// <summary>The line with one mark of each command shown by its name, so that it is none.</summary>
    public static string TakenOut(string line)
    {
        if (!line.Contains(Start, StringComparison.Ordinal) && !line.Contains(Hashes, StringComparison.Ordinal)) return line;
        var text = new StringBuilder(line.Length);
        var begin = line.Length - line.AsSpan().TrimStart().Length;
        for (var i = 0; i < line.Length; i++)
        {
            var isCommand = (i == begin && line.AsSpan(i).StartsWith(Start)) || IsBracketed(line.AsSpan(i));
            text.Append(isCommand ? HiddenCharacter.NameOf(new Rune(line[i])) : line[i]);
        }

        return text.ToString();
    }

    private static bool IsBracketed(ReadOnlySpan<char> rest)
    {
        if (!rest.StartsWith(Hashes)) return false;
        rest = rest[Hashes.Length..];
        while (rest is [var letter, ..] && char.IsAsciiLetter(letter)) rest = rest[1..];
        return rest is ['[', ..];
    }
}
