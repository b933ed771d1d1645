using System.CommandLine;

namespace WaterScript.Cli.Commands;

/// <summary>Options that several commands have.</summary>
internal static class Arguments
{
    /// <summary><c>--root FOLDER</c></summary>
    public static Option<string?> Root() =>
        Text("--root", "FOLDER", "Includes stay inside this folder. Default: the nearest folder above with a .git, else the file's own.");

    /// <summary><c>-o PATH</c></summary>
    public static Option<string?> Output() =>
        new("--output", "-o") { HelpName = "PATH", Description = "Write to this file, never half-written; - is standard output." };

    /// <summary>An option with a text.</summary>
    public static Option<string?> Text(string name, string value, string description) => new(name) { HelpName = value, Description = description };

    /// <summary>An option without a value.</summary>
    public static Option<bool> Switch(string name, string description) => new(name) { Description = description };
}
