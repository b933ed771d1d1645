using System.CommandLine;
using System.CommandLine.Invocation;
using WaterScript.Binding;

namespace WaterScript.Cli;

/// <summary><c>--version</c>: that of the program, then that of the time-zone data.</summary>
/// <param name="ofProgram">Prints that of the program.</param>
/// <param name="terminal">Knows the time zones.</param>
internal sealed class VersionAction(SynchronousCommandLineAction ofProgram, Terminal terminal) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var status = ofProgram.Invoke(parseResult);
        parseResult.InvocationConfiguration.Output.Write($"time-zone data {TimeZoneVersion.Of(terminal.TimeZones)}\n");
        return status;
    }
}
