using System.Reflection;
using WaterScript.Documents.Reports;

namespace WaterScript.Cli;

/// <summary>What this program knows of itself.</summary>
internal static class ThisProgram
{
    /// <summary>
    /// Where its source is, as its packages say it too: the remote of the clone that it was built in (<c>PublishRepositoryUrl</c>); null where that had none.
    /// </summary>
    public static string? Home { get; } = Absolute(typeof(ThisProgram).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
        .FirstOrDefault(entry => entry.Key == "RepositoryUrl")?.Value);

    /// <summary>As a report names it.</summary>
    public static ReportingProgram ForReports { get; } = new(typeof(ThisProgram).Assembly.GetName().Version!.ToString(fieldCount: 3), Home);

    /// <summary>What no other build has: whatever changes in the code of the program or of the compiler changes it.</summary>
    public static string Build { get; } = $"{ForReports.Version} {typeof(ThisProgram).Module.ModuleVersionId} {typeof(Compilation).Module.ModuleVersionId}";

    /// <summary>An address that leads somewhere for whoever reads it: no path of the machine that built it.</summary>
    internal static string? Absolute(string? address) =>
        Uri.TryCreate(address, UriKind.Absolute, out var uri) && uri.Scheme == Uri.UriSchemeHttps && uri.UserInfo.Length == 0 ? uri.AbsoluteUri : null;
}
