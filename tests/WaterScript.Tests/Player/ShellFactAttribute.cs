using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>A test that needs a POSIX shell; it is skipped, and says so, where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ShellFactAttribute : FactAttribute
{
    public ShellFactAttribute() => Skip = PosixShell.Lacks;
}

/// <inheritdoc cref="ShellFactAttribute"/>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ShellTheoryAttribute : TheoryAttribute
{
    public ShellTheoryAttribute() => Skip = PosixShell.Lacks;
}

/// <summary>The shell of the machine.</summary>
internal static class PosixShell
{
    /// <summary>Why the player cannot run here; null where it can.</summary>
    public static string? Lacks => File.Exists("/bin/sh") ? null : "the player is a POSIX shell script, and there is no /bin/sh";
}
