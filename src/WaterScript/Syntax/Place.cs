namespace WaterScript.Syntax;

/// <summary>Where a statement stands, which decides with what words it may begin.</summary>
internal enum Place
{
    /// <summary>At the top of a file.</summary>
    File,

    /// <summary>In the braces of a description: <c>zone</c>, <c>supply</c>.</summary>
    Description,

    /// <summary>In a <c>schedule</c>.</summary>
    Schedule,

    /// <summary>Among steps.</summary>
    Steps,

    /// <summary>In a <c>restriction</c>.</summary>
    Restriction,
}
