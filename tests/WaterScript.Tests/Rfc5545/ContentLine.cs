using System.Text.RegularExpressions;

namespace WaterScript.Tests.Rfc5545;

/// <summary>One property, or the begin or end of a component (RFC 5545, 3.1).</summary>
/// <param name="Number">Its line in the file, from 1.</param>
/// <param name="Name">As written.</param>
/// <param name="Parameters">By name, without the quotes of their values.</param>
/// <param name="Value">What stands after the colon, escapes and all.</param>
internal sealed partial record ContentLine(int Number, string Name, IReadOnlyDictionary<string, string> Parameters, string Value)
{
    public static ContentLine Of(int number, string text)
    {
        var match = Grammar().Match(text);
        if (!match.Success) throw new Malformed(number, $"is no content line: {text}");
        var parameters = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, value) in match.Groups["name"].Captures.Zip(match.Groups["values"].Captures))
        {
            if (!parameters.TryAdd(name.Value, value.Value.Trim('"'))) throw new Malformed(number, $"has {name.Value} twice");
        }

        return new ContentLine(number, match.Groups["property"].Value, parameters, match.Groups["value"].Value);
    }

    public string? Zone => Parameters.GetValueOrDefault("TZID");

    // Names in upper case and without an underscore are what every reader takes; the RFC allows either case.
    [GeneratedRegex(
        """^(?<property>[A-Z0-9-]+)(;(?<name>[A-Z0-9-]+)=(?<values>("[^"]*"|[^",:;]*)(,("[^"]*"|[^",:;]*))*))*:(?<value>.*)$""",
        RegexOptions.ExplicitCapture | RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex Grammar();
}
