using System.Collections.Immutable;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>A site whose files may be fixed, together with others that may share some of them.</summary>
/// <param name="check">Checks it with other texts in place of some files, by the paths that findings show.</param>
/// <param name="isAllowed">Whether its files may be changed at all.</param>
internal sealed class FixTarget(Func<ImmutableDictionary<string, SourceText>, CheckedSite> check, bool isAllowed = true)
{
    private ImmutableDictionary<string, SourceText> _texts = NoTexts;
    private CheckedSite? _checked;

    /// <summary>The files as they are.</summary>
    internal static ImmutableDictionary<string, SourceText> NoTexts { get; } = ImmutableDictionary.Create<string, SourceText>(StringComparer.Ordinal);

    /// <summary>Whether its files may be changed at all.</summary>
    public bool IsAllowed => isAllowed;

    /// <summary>The site with some texts in place of its own.</summary>
    internal CheckedSite With(ImmutableDictionary<string, SourceText> texts)
    {
        if (_checked is not null && !ReadsOther(_checked, texts)) return _checked;
        return check(texts);
    }

    /// <summary>The site with the texts that are there to stay.</summary>
    internal CheckedSite Settle(ImmutableDictionary<string, SourceText> texts)
    {
        _checked = With(texts);
        _texts = texts;
        return _checked;
    }

    /// <summary>Whether one of its files has another text than when it was checked last.</summary>
    private bool ReadsOther(CheckedSite site, ImmutableDictionary<string, SourceText> texts) =>
        site.Reading.Files.Any(file => texts.GetValueOrDefault(file.Source.Path) != _texts.GetValueOrDefault(file.Source.Path));
}
