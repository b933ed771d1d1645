using System.Globalization;
using System.Text;
using WaterScript.Documents.Timetables.Deployed;

namespace WaterScript.Cli.Files;

/// <summary>A timetable in YAML that the command line names in place of a site. Every use of it is within <see cref="Use"/>.</summary>
internal static class DeployedFile
{
    private const int ByteOrderMark = 3;
    private static readonly byte[] Beginning = "waterscript:"u8.ToArray();
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Whether a path names one: by its ending or, of standard input, by how it begins.</summary>
    public static bool IsMeant(string path, Terminal terminal) => path == SiteSource.Standard
        ? Begins(terminal.PeekInput(ByteOrderMark + Beginning.Length))
        : path.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".yml", StringComparison.OrdinalIgnoreCase);

    /// <summary>Opens one and does something with it, which reads it to its end.</summary>
    /// <param name="path">A file, or <see cref="SiteSource.Standard"/>.</param>
    /// <param name="terminal">Where standard input is.</param>
    /// <param name="work">What to do.</param>
    /// <exception cref="CommandException">It cannot be read, or is not as it was compiled: where, and what to do about it.</exception>
    public static T Use<T>(string path, Terminal terminal, Func<DeployedTimetable, T> work)
    {
        var shown = path == SiteSource.Standard ? path : terminal.Surroundings.Shown(path);
        using var text = new StreamReader(path == SiteSource.Standard ? terminal.OpenInput() : RegularFile.OpenNamed(path, terminal.Surroundings), Utf8);
        try
        {
            using var timetable = DeployedTimetable.Open(text, shown, terminal.TimeZones);
            return work(timetable);
        }
        catch (DeployedException problem)
        {
            throw new CommandException(string.Create(
                CultureInfo.InvariantCulture, $"{shown}:{problem.Line}:{problem.Column}: {problem.Message}; {problem.Help}"));
        }
    }

    private static bool Begins(ReadOnlySpan<byte> bytes) => (bytes.StartsWith(Encoding.UTF8.Preamble) ? bytes[ByteOrderMark..] : bytes).StartsWith(Beginning);
}
