namespace WaterScript.Cli.Files.Git;

/// <summary>What git answered.</summary>
/// <param name="IsSuccess">Whether it did what it was asked.</param>
/// <param name="Output">What it printed, as far as was taken.</param>
/// <param name="Error">Why not, in its own words; may be empty.</param>
internal sealed record GitAnswer(bool IsSuccess, byte[] Output, string Error)
{
    /// <summary>The output as a line of text.</summary>
    public string Line => System.Text.Encoding.UTF8.GetString(Output).TrimEnd('\n', '\r');
}
