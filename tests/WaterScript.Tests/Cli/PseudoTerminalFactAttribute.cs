using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A test on a terminal, which <c>script</c> of util-linux plays; it is skipped, and says so, where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PseudoTerminalFactAttribute : FactAttribute
{
    public PseudoTerminalFactAttribute() =>
        Skip = OperatingSystem.IsLinux() && WaterscriptProcess.Shell(Path.GetTempPath(), "script -qec true /dev/null && command -v mkfifo").ExitCode == 0 ? null : "no script(1) of util-linux";
}
