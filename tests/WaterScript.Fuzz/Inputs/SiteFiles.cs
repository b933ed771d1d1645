using System.Collections.Immutable;
using System.Text;

namespace WaterScript.Fuzz.Inputs;

/// <summary>A root file and the files beside it, as bytes.</summary>
/// <param name="Name">Where it comes from.</param>
/// <param name="Root">Path of the root file among them.</param>
/// <param name="Files">All of them by path.</param>
public sealed record SiteFiles(string Name, string Root, ImmutableSortedDictionary<string, byte[]> Files)
{
    /// <summary>The name that a file has of which only the text is known.</summary>
    public const string UsualRoot = "site.water";

    /// <summary>The text of the root file; what is not UTF-8 becomes U+FFFD.</summary>
    public string RootText => TextOf(Root);

    /// <summary>One file.</summary>
    public static SiteFiles Of(string name, string text) => Of(name, Encoding.UTF8.GetBytes(text));

    /// <summary>One file.</summary>
    public static SiteFiles Of(string name, byte[] bytes) => new(name, UsualRoot, Empty.Add(UsualRoot, bytes));

    /// <summary>No files.</summary>
    public static ImmutableSortedDictionary<string, byte[]> Empty { get; } = ImmutableSortedDictionary.Create<string, byte[]>(StringComparer.Ordinal);

    /// <summary>The text of a file; what is not UTF-8 becomes U+FFFD.</summary>
    public string TextOf(string path) => Encoding.UTF8.GetString(Files[path]);

    /// <summary>The same with another text in a file.</summary>
    public SiteFiles With(string path, string text) => With(path, Encoding.UTF8.GetBytes(text));

    /// <summary>The same with other bytes in a file.</summary>
    public SiteFiles With(string path, byte[] bytes) => this with { Files = Files.SetItem(path, bytes) };
}
