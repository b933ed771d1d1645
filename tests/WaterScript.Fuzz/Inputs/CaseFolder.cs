using WaterScript.Tests.Documentation;

namespace WaterScript.Fuzz.Inputs;

/// <summary>
/// Inputs that once failed. One is a file <c>NAME.water</c>, or a folder <c>NAME</c> with a <c>site.water</c>, the files that it includes, and
/// <c>original.water</c>, where it fails only beside the site that it was made from.
/// </summary>
public static class CaseFolder
{
    /// <summary>Its path from the root of the repository.</summary>
    public const string Name = "tests/Cases/fuzz";

    private const string Ending = ".water";
    private const string Original = "original" + Ending;

    /// <summary>The cases by name, in order.</summary>
    public static IEnumerable<SiteFiles> Read(string? folder = null)
    {
        folder ??= Path.Combine(Repository.Root, Name);
        if (!Directory.Exists(folder)) return [];
        return Directory.EnumerateFiles(folder, "*" + Ending).Concat(Directory.EnumerateDirectories(folder)).Select(ReadOne)
            .OrderBy(site => site.Name, StringComparer.Ordinal);
    }

    /// <summary>The case at a path, as <see cref="Write"/> gives it.</summary>
    public static SiteFiles ReadOne(string path) =>
        Directory.Exists(path) ? ReadFolder(path) : SiteFiles.Of(Path.GetFileNameWithoutExtension(path), File.ReadAllBytes(path));

    /// <summary>The inputs of a case, one with each salt.</summary>
    public static IEnumerable<FuzzInput> InputsOf(SiteFiles site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var original = site.Files.ContainsKey(Original) ? site with { Root = Original } : site;
        return Enumerable.Range(0, FuzzInput.Salts).Select(salt => new FuzzInput(site, original, salt, site.Name));
    }

    /// <summary>An input as a case.</summary>
    internal static SiteFiles Keep(FuzzInput input, string name)
    {
        var site = input.Files with { Name = name };
        return ReferenceEquals(input.Files, input.Original) ? site : site.With(Original, input.Original.Files[input.Original.Root]);
    }

    /// <summary>Writes a case.</summary>
    /// <returns>Its path.</returns>
    public static string Write(string folder, SiteFiles site)
    {
        Directory.CreateDirectory(folder);
        if (site.Files.Count == 1)
        {
            var path = Path.Combine(folder, site.Name + Ending);
            File.WriteAllBytes(path, site.Files[site.Root]);
            return path;
        }

        foreach (var (path, bytes) in site.Files)
        {
            var file = Path.Combine(folder, site.Name, path == site.Root ? SiteFiles.UsualRoot : path);
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.WriteAllBytes(file, bytes);
        }

        return Path.Combine(folder, site.Name);
    }

    private static SiteFiles ReadFolder(string folder) => new(Path.GetFileName(folder), SiteFiles.UsualRoot, SiteFiles.Empty.AddRange(
        Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Select(path => KeyValuePair.Create(Path.GetRelativePath(folder, path).Replace('\\', '/'), File.ReadAllBytes(path)))));
}
