namespace WaterScript.Text.Lines;

/// <summary>Colours of a terminal (ECMA-48, select graphic rendition). Nothing is said by colour alone.</summary>
internal enum TextStyle
{
    /// <summary>As the terminal is set.</summary>
    Plain,

    /// <summary>For what is read first.</summary>
    Strong,

    /// <summary>For places, line numbers, and what explains.</summary>
    Blue,

    /// <summary>For an error.</summary>
    Red,

    /// <summary>For a warning.</summary>
    Yellow,

    /// <summary>For advice.</summary>
    Cyan,

    /// <summary>For a fix, and a line that it writes.</summary>
    Green,

    /// <summary>For a line that a fix takes out.</summary>
    Gone,

    /// <summary>For what is accepted.</summary>
    Accepted,
}
