namespace WaterScript.Cli.Files.Git;

/// <summary>What a repository has under a path.</summary>
/// <param name="Mode">In octal, as git says it.</param>
/// <param name="Name">The name of its object.</param>
internal readonly record struct GitEntry(string Mode, string Name)
{
    /// <summary>Whether it is a file.</summary>
    public bool IsFile => Mode is "100644" or "100755" or "100664";

    /// <summary>Whether it is a link, whose object says where it leads.</summary>
    public bool IsLink => Mode == "120000";

    /// <summary>Whether it is a commit of another repository.</summary>
    public bool IsSubmodule => Mode == "160000";
}
