using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.Commands;

/// <summary>Options whose values are read as the command line is parsed, so that what is wrong with one is said before anything is done.</summary>
internal static class OptionValues
{
    private const int LastYear = 9_000;

    private static readonly LocalDateTimePattern[] Times =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss"),
    ];

    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss'Z'");

    /// <summary>An option with a date: <c>2026-05-01</c>.</summary>
    public static Option<LocalDate?> Date(string name, string description) =>
        Create<LocalDate?>(name, "DATE", description, result => ReadDate(result, name));

    /// <summary>Reads the date that an option needs, or an argument without a name; null, with what is wrong, where it is not one.</summary>
    public static LocalDate? ReadDate(ArgumentResult result, string after = "DATE")
    {
        var text = TextOf(result);
        if (LocalDatePattern.Iso.Parse(text) is { Success: true, Value.Year: >= 1 and <= LastYear } date) return date.Value;
        result.AddError($"{after} needs a date such as 2026-05-01, not {UsageWords.Typed(text)}");
        return null;
    }

    /// <summary>An option with a local date and time: <c>2026-05-01T09:30</c>.</summary>
    public static Option<LocalDateTime?> Time(string name, string description) => Create<LocalDateTime?>(name, "TIME", description, result =>
    {
        var text = TextOf(result);
        foreach (var pattern in Times)
        {
            if (pattern.Parse(text) is { Success: true, Value.Year: >= 1 and <= LastYear } time) return time.Value;
        }

        result.AddError($"{name} needs a date and time such as 2026-05-01T09:30, not {UsageWords.Typed(text)}");
        return null;
    });

    /// <summary>An option with a time in UTC: <c>2026-05-01T09:30:00Z</c>.</summary>
    public static Option<Instant?> UtcTime(string name, string description) => Create<Instant?>(name, "TIME", description, result =>
    {
        var text = TextOf(result);
        if (Utc.Parse(text) is { Success: true } time && time.Value.InUtc().Year is >= 1 and <= LastYear) return time.Value;
        result.AddError($"{name} needs a time in UTC such as 2026-05-01T09:30:00Z, with the Z, not {UsageWords.Typed(text)}");
        return null;
    });

    /// <summary>An option with a whole number.</summary>
    /// <param name="name">What the option is called.</param>
    /// <param name="value">What its value is called in the help.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="least">The least that it may be.</param>
    /// <param name="most">The most that it may be.</param>
    public static Option<int?> Number(string name, string value, string description, int least, int most) =>
        Create<int?>(name, value, description, result =>
    {
        var text = TextOf(result);
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most) return number;
        result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} must be {least} to {most}, not {UsageWords.Typed(text)}"));
        return null;
    });

    /// <summary>An option with one of a few words, which a shell can offer.</summary>
    /// <param name="name">What the option is called.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="choices">The words, and what each stands for.</param>
    public static Option<T?> Choice<T>(string name, string description, params (string Word, T Value)[] choices)
        where T : struct
    {
        string[] words = [.. choices.Select(choice => choice.Word)];
        var option = Create<T?>(name, string.Join('|', words), description, result =>
        {
            var text = TextOf(result);
            foreach (var (word, value) in choices)
            {
                if (word == text) return value;
            }

            var help = Spelling.Nearest(text, words) is { } nearest ? $"; did you mean {nearest}?" : "";
            result.AddError($"{name} must be {UsageWords.Choice(words)}, not {UsageWords.Typed(text)}{help}");
            return null;
        });

        // Without this the names of an enum would be offered too.
        option.CompletionSources.Clear();
        option.CompletionSources.Add(words);
        return option;
    }

    /// <summary>An option with a value of any other kind.</summary>
    /// <param name="name">What the option is called.</param>
    /// <param name="value">What its value is called in the help.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="read">Reads the value; what is wrong with it, it adds to the result in words of its own.</param>
    public static Option<T> Create<T>(string name, string value, string description, Func<ArgumentResult, T> read) =>
        new(name) { HelpName = value, Description = description, CustomParser = read };

    /// <summary>What was typed for a value that stands once.</summary>
    public static string TextOf(ArgumentResult result) => result.Tokens[0].Value;
}
