using WaterScript.Tests.Documentation;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Cases;

/// <summary>
/// A case under <c>tests/Cases</c>: a source, and beside it what comes out of it. <c>WATERSCRIPT_ACCEPT=1</c> writes what comes out in place of comparing it,
/// so that a diff shows what a change does.
/// </summary>
internal static class CaseFile
{
    /// <summary>The setting.</summary>
    public const string AcceptSetting = "WATERSCRIPT_ACCEPT";

    private const string Folder = "tests/Cases";
    private static readonly bool IsAccepting = Environment.GetEnvironmentVariable(AcceptSetting) == "1";

    /// <summary>The cases of a subject, also those in folders below it, by their path without the ending.</summary>
    public static TheoryData<string> Of(string subject) =>
    [
        .. Directory.EnumerateFiles(Path.Combine(Repository.Root, Folder, subject), "*.water", SearchOption.AllDirectories)
            .Select(file => Path.ChangeExtension(Path.GetRelativePath(Repository.Root, file), null).Replace('\\', '/'))
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The source of a case; findings name it by its file alone.</summary>
    public static SourceText Source(string name) => SourceText.From(Path.GetFileName(name) + ".water", Repository.Read(name + ".water"));

    /// <summary>Compares what came out with what stands beside the case.</summary>
    /// <param name="name">The case.</param>
    /// <param name="ending">Of the file beside it: <c>.findings</c>.</param>
    /// <param name="found">What came out.</param>
    public static void Matches(string name, string ending, string found)
    {
        var file = Path.Combine(Repository.Root, name + ending);
        if (IsAccepting) File.WriteAllText(file, found);
        Assert.True(File.Exists(file), $"{name}{ending} is missing; {AcceptSetting}=1 writes it");
        Assert.Equal(File.ReadAllText(file), found);
    }
}