using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>The player in C, built once for all tests; see <see cref="Outside"/>.</summary>
internal static class CPlayer
{
    private static readonly string Out = Path.Combine(AppContext.BaseDirectory, "player-c");

    private static readonly Lazy<string?> LacksPlayer = new(() => WhyNotBuilt("pc"));

    private static readonly Lazy<string?> LacksBoard = new(() => WhyNotBuilt("board"));

    /// <summary>The program for a computer; it stops where memory is misused or behaviour is undefined.</summary>
    public static string Program { get; } = Path.Combine(Out, "player");

    /// <summary>The emulated board.</summary>
    public static string Board { get; } = Path.Combine(Out, "board");

    /// <summary>Why there is no program for a computer; null where there is one.</summary>
    public static string? Lacks => LacksPlayer.Value;

    /// <summary>Why there is no emulated board; null where there is one.</summary>
    public static string? BoardLacks => LacksBoard.Value;

    /// <summary>Firmware for the board.</summary>
    public static string Firmware(string name) => Path.Combine(Out, name, "board.elf");

    private static string? WhyNotBuilt(string what)
    {
        if (Outside.Lacks("WATERSCRIPT_PLAYER_C", "tests/player-c/install") is { } lacks) return lacks;
        var script = Path.Combine(Repository.Root, "tests", "player-c", "build");
        var result = WaterscriptProcess.Start("/bin/sh", Repository.Root, [], [], [script, what, Out]);
        return result.ExitCode == 0 ? null : throw new InvalidOperationException($"the player in C is not built:\n{result.Error}");
    }
}

/// <summary>A test of the player in C.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class CPlayerFactAttribute : FactAttribute
{
    public CPlayerFactAttribute() => Skip = CPlayer.Lacks;
}

/// <summary>A test of the player in C on an emulated board.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BoardFactAttribute : FactAttribute
{
    public BoardFactAttribute() => Skip = CPlayer.BoardLacks;
}

/// <inheritdoc cref="BoardFactAttribute"/>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BoardTheoryAttribute : TheoryAttribute
{
    public BoardTheoryAttribute() => Skip = CPlayer.BoardLacks;
}
