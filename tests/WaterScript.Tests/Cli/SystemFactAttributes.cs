using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A test that needs two users, an administrator and another; it is skipped, and says so, where it cannot be both.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class UserFactAttribute : FactAttribute
{
    /// <summary>Before a command: it is run by a user without any rights of its own, who may read and start the program under test.</summary>
    public const string AsUser = "DOTNET_gcServer=0 setpriv --reuid=65534 --regid=65534 --clear-groups";

    public UserFactAttribute() => Skip = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && Starts() ? null
        : "needs an administrator, setpriv(1), and a program that every user may start";

    private static bool Starts() => WaterscriptProcess.Shell("/", $"{AsUser} \"$WATERSCRIPT\" --version").ExitCode == 0;
}

/// <summary>A test on a terminal, which <c>script</c> of util-linux plays; it is skipped, and says so, where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PseudoTerminalFactAttribute : FactAttribute
{
    public PseudoTerminalFactAttribute() =>
        Skip = OperatingSystem.IsLinux() && WaterscriptProcess.Shell(Path.GetTempPath(), "script -qec true /dev/null && command -v mkfifo").ExitCode == 0 ? null
            : "no script(1) of util-linux";
}

/// <summary>A test that needs programs that spread work or merge reports; it is skipped, and says so, where one is missing.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class FleetFactAttribute : FactAttribute
{
    public FleetFactAttribute(string proof) =>
        Skip = File.Exists("/bin/sh") && WaterscriptProcess.Shell(Path.GetTempPath(), proof).ExitCode == 0 ? null
            : $"not there: {proof}; tests/fleets/install gets it";
}
