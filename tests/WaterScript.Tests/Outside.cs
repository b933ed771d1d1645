namespace WaterScript.Tests;

/// <summary>
/// What tests need that is no part of .NET: readers of calendars, a browser, an emulated board. A newcomer's run takes the same time everywhere, so such
/// tests run where a setting says so, as in CI; then what is not there fails them.
/// </summary>
internal static class Outside
{
    private const string Required = "required";

    /// <summary>Why a test is skipped; null where its setting is <c>required</c>.</summary>
    /// <param name="setting">The variable of the environment.</param>
    /// <param name="install">The script that gets what the test needs.</param>
    public static string? Lacks(string setting, string install) =>
        Environment.GetEnvironmentVariable(setting) == Required ? null : $"{setting}={Required} runs it, {install} gets what it needs";
}
