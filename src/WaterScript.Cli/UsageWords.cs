using System.CommandLine;
using System.CommandLine.Parsing;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;

namespace WaterScript.Cli;

/// <summary>What is wrong with a command line, with the nearest word that would be right.</summary>
internal static class UsageWords
{
    /// <summary>Whether a value that stands where it should is refused, in words of our own; else the shape of the line is wrong.</summary>
    public static bool IsOfValue(ParseError error, ParseResult parsed) =>
        parsed.UnmatchedTokens.Count == 0 && error.SymbolResult is (OptionResult { Tokens.Count: 1 } or ArgumentResult { Tokens.Count: > 0 });

    /// <summary>A sentence without a full stop, and whether it says all that there is to say: else the help is to be read, too.</summary>
    public static (string Words, bool IsAll) Of(ParseError error, ParseResult parsed, Surroundings surroundings)
    {
        var command = parsed.CommandResult.Command;
        if (parsed.UnmatchedTokens is [var first, ..] unknown)
            return Unknown(unknown.FirstOrDefault(BeginsWithDash, first), command, surroundings);
        if (IsOfValue(error, parsed)) return (error.Message, true);
        return error.SymbolResult switch
        {
            _ when command is RootCommand => ($"needs a command: {Choice([.. command.Subcommands.Select(subcommand => subcommand.Name)])}", false),
            OptionResult { Tokens.Count: 0 } option => ($"{option.Option.Name} needs a value: {option.Option.Name} {option.Option.HelpName}", true),
            OptionResult option => ($"{option.Option.Name} is given more than once", true),
            _ => ($"{command.Name} needs {Needed(command)}", false),
        };
    }

    private static string Needed(Command command) =>
        command.Arguments is [_] ? "a file" : string.Join(", ", command.Arguments.Select(argument => argument.Name));

    /// <summary>
    /// What to say of a word that begins with a dash and would be taken for a file: a misspelt option. Nothing is read or written before it is put right;
    /// a file that is called so is named after <c>--</c>. Null where there is none.
    /// </summary>
    public static (string Words, bool IsAll)? MisspeltOption(ParseResult parsed, Surroundings surroundings)
    {
        var words = parsed.CommandResult.Children.OfType<ArgumentResult>().SelectMany(argument => argument.Tokens).Select(token => token.Value).ToHashSet();
        return parsed.Tokens.TakeWhile(token => token.Type != TokenType.DoubleDash).Select(token => token.Value)
            .FirstOrDefault(word => word.Length > 1 && BeginsWithDash(word) && words.Contains(word)) is { } found
            ? Unknown(found, parsed.CommandResult.Command, surroundings)
            : null;
    }

    /// <summary>A hyphen, or what a word processor makes of one.</summary>
    private static bool BeginsWithDash(string word) => word is [var letter, ..] && Dashes.Contains(letter);

    private static readonly char[] Dashes = ['-', '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212'];

    /// <summary>All that may be written.</summary>
    public static string Choice(string[] words) => $"{string.Join(", ", words[..^1])} or {words[^1]}";

    /// <summary>What was typed: in quotes where it would not be seen as one word.</summary>
    public static string Typed(string text) => text.Length == 0 || text.Any(char.IsWhiteSpace) ? $"\"{text}\"" : text;

    /// <summary>What to say of a name that nothing has.</summary>
    /// <param name="kind">What it should be a name of.</param>
    /// <param name="name">What was typed.</param>
    /// <param name="known">What there is.</param>
    public static string NoSuch(string kind, string name, IReadOnlyCollection<string> known)
    {
        var help = Spelling.Nearest(name, known) is { } nearest ? $"did you mean {nearest}?"
            : known.Count == 0 ? "there are none"
            : $"there are: {string.Join(", ", known)}";
        return $"no {kind} \"{name}\"; {help}";
    }

    private static (string Words, bool IsAll) Unknown(string word, Command command, Surroundings surroundings)
    {
        if (command is RootCommand && File.Exists(surroundings.At(word))) return ($"needs a command before {word}, such as check {word}", true);
        var isOption = BeginsWithDash(word);
        var words = isOption ? command.Options.Concat(command.Parents.OfType<Command>().SelectMany(parent => parent.Options)).Select(option => option.Name)
            : command.Subcommands.Select(subcommand => subcommand.Name);
        var nearest = word == "help" ? "--help" : Spelling.Nearest(isOption ? $"--{word.TrimStart(Dashes)}" : word, words);
        var kind = isOption ? "option" : command is RootCommand ? "command" : "argument";
        return nearest is null ? ($"unknown {kind} {Typed(word)}", false) : ($"unknown {kind} {Typed(word)}; did you mean {nearest}?", true);
    }
}
