using WaterScript.Text;

namespace WaterScript.Editing.Outline;

/// <summary>What a word is, for its colour; in the order in which editors are given the names.</summary>
internal enum ColourKind
{
    Keyword,
    Property,
    Variable,
    Function,
    Method,
    Class,
    Struct,
    EnumMember,
    Number,
    String,
    Comment,
    Parameter,
    Label,
}

/// <summary>What else there is to a word.</summary>
[Flags]
internal enum ColourModifiers
{
    None = 0,
    Declaration = 1,
    Readonly = 2,
    DefaultLibrary = 4,
}

/// <summary>A word and its colour.</summary>
internal readonly record struct Colour(TextSpan Span, ColourKind Kind, ColourModifiers Modifiers = ColourModifiers.None);
