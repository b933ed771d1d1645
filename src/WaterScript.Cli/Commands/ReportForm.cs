using WaterScript.Diagnostics;

namespace WaterScript.Cli.Commands;

/// <summary>The form that <c>--report</c> asks for.</summary>
internal static class ReportForm
{
    /// <summary>The form; the first where none is asked for.</summary>
    /// <exception cref="CommandException">There is no such form.</exception>
    public static string Of(string? word, string[] forms)
    {
        if (word is null) return forms[0];
        if (forms.Contains(word)) return word;
        var nearest = Spelling.Nearest(word, forms);
        throw new CommandException($"\"{word}\" after --report is no form of a report; " + (nearest is null ? $"there are {string.Join(", ", forms)}" : $"did you mean {nearest}?"));
    }
}
