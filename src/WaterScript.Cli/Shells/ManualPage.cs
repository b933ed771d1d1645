using System.CommandLine;
using System.Text;

namespace WaterScript.Cli.Shells;

/// <summary>The manual page of the program in the macros of <c>man</c>, from the same texts as the help.</summary>
internal static class ManualPage
{
    /// <summary>Writes it.</summary>
    public static string Of(RootCommand root)
    {
        var page = new StringBuilder();
        Line(page, $".TH WATERSCRIPT 1 \"\" \"WaterScript\" \"User Commands\"");
        Section(page, "NAME", $"{CommandLine.Program} \\- {Lowered(root.Description!)}");
        Section(page, "SYNOPSIS", $".B {CommandLine.Program}\n.I COMMAND\n.RI [ options ]");
        Section(page, "DESCRIPTION",
            "A site and its watering schedules are described in a text file. The commands check it, write its timetable, and answer questions about it.\n" +
            "A hyphen in place of a file is standard input.");
        Line(page, ".SH COMMANDS");
        foreach (var command in root.Subcommands.Where(command => !command.Hidden)) Describe(page, command);
        Line(page, ".SH OPTIONS OF ALL COMMANDS");
        foreach (var option in root.Options.Where(option => !option.Hidden)) Describe(page, option);
        Section(page, "EXIT STATUS",
            ".TP\n.B 0\nNo error in the file.\n.TP\n.B 1\nAn error in the file, a change, or something that did not run as planned.\n" +
            ".TP\n.B 2\nThe command could not run, or not for all files.");
        Section(page, "ENVIRONMENT",
            ".TP\n.B NO_COLOR\nNo colours.\n.TP\n.B FORCE_COLOR\nColours also where the output is not a terminal.\n" +
            ".TP\n.B SOURCE_DATE_EPOCH\nWhen a calendar counts as made, in seconds since 1970.");
        Section(page, "CAUTION",
            "A schedule is not a safety device. Drinking water is protected by a backflow preventer, pumps by a float or pressure switch;\n" +
            "local codes and licensed practice come first.");
        return page.ToString();
    }

    private static void Describe(StringBuilder page, Command command)
    {
        Line(page, $".SS {CommandLine.Program} {command.Name} {Escaped(string.Join(' ', command.Arguments.Select(Written)))}");
        Line(page, Text(command.Description!));
        foreach (var argument in command.Arguments.Where(argument => !string.IsNullOrEmpty(argument.Description)))
            Line(page, $".TP\n.I {Escaped(argument.Name)}\n{Text(argument.Description!)}");
        foreach (var option in command.Options.Where(option => !option.Hidden)) Describe(page, option);
        foreach (var subcommand in command.Subcommands.Where(subcommand => !subcommand.Hidden))
            Line(page, $".TP\n.B {Escaped(subcommand.Name)}\n{Text(subcommand.Description!)}");
    }

    private static string Written(Argument argument) => argument.Arity.MaximumNumberOfValues > 1 ? $"{argument.Name} ..." : argument.Name;

    private static void Describe(StringBuilder page, Option option)
    {
        string[] names = [.. option.Aliases.Where(alias => alias.StartsWith('-')), option.Name];
        var written = string.Join(", ", names.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        var value = option.HelpName is { Length: > 0 } name ? $" \\fI{Escaped(name)}\\fR" : "";
        Line(page, $".TP\n\\fB{Escaped(written)}\\fR{value}\n{Text(option.Description ?? "")}");
    }

    private static void Section(StringBuilder page, string title, string text) => Line(page, $".SH {title}\n{text}");

    private static void Line(StringBuilder page, string text) => page.Append(text).Append('\n');

    /// <summary>A line of text: its signs escaped, and none at its start that would be a macro.</summary>
    private static string Text(string text)
    {
        var escaped = Escaped(text);
        return escaped is ['.' or '\'', ..] ? $"\\&{escaped}" : escaped;
    }

    /// <summary>A hyphen of an option is a minus, so that it can be copied; a backslash stands for itself.</summary>
    private static string Escaped(string text) => text.Replace("\\", "\\e", StringComparison.Ordinal).Replace("-", "\\-", StringComparison.Ordinal)
        .Replace("…", "...", StringComparison.Ordinal);

    private static string Lowered(string text) => char.ToLowerInvariant(text[0]) + text[1..].TrimEnd('.');
}
