namespace WaterScript.Cli;

/// <summary>The command cannot run, and why, as a sentence for people without a full stop.</summary>
internal sealed class CommandException(string message) : Exception(message);
