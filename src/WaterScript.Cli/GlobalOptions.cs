using System.CommandLine;
using WaterScript.Cli.Commands;
using WaterScript.Cli.Files.TimeZones;

namespace WaterScript.Cli;

/// <summary>When a text for people has colours.</summary>
internal enum ColourChoice
{
    /// <summary>On a terminal that shows them, unless NO_COLOR is set; with FORCE_COLOR elsewhere too.</summary>
    Auto,

    /// <summary>Whatever the output is.</summary>
    Always,

    /// <summary>Not at all.</summary>
    Never,
}

/// <summary>The options that every command has.</summary>
internal sealed class GlobalOptions
{
    private readonly Option<ColourChoice?> _colour = OptionValues.Choice(
        "--color", "Colours in text for people. Default: auto, on a terminal, as NO_COLOR and FORCE_COLOR say.",
        ("auto", ColourChoice.Auto), ("always", ColourChoice.Always), ("never", ColourChoice.Never));

    private readonly Option<bool> _quiet = Arguments.Switch("--quiet", "Only what is found or asked for: no verdict, no sums, no progress.");

    private readonly Option<string?> _tzdata = Arguments.Text("--tzdata", "FILE",
        "Time-zone data in place of that of the program: a file in the format of Noda Time, or `system` for that of the system.");

    /// <summary>Adds them to the program and all of its commands.</summary>
    public void AddTo(RootCommand root)
    {
        (_colour.Recursive, _quiet.Recursive, _tzdata.Recursive) = (true, true, true);
        root.Options.Add(_colour);
        root.Options.Add(_quiet);
        root.Options.Add(_tzdata);
    }

    /// <summary>Has a terminal go by what was typed.</summary>
    public void Apply(ParseResult parsed, Terminal terminal)
    {
        terminal.IsQuiet = parsed.GetValue(_quiet);
        terminal.TimeZones = TimeZoneData.Of(parsed.GetValue(_tzdata), terminal.Surroundings);
        if (parsed.GetValue(_colour) is { } choice and not ColourChoice.Auto) terminal.UseColour(choice == ColourChoice.Always);
    }
}
