namespace WaterScript.Cli.Files;

/// <summary>What stands under a path.</summary>
internal enum FileKind
{
    /// <summary>A file with bytes of its own.</summary>
    Regular,

    /// <summary>A folder.</summary>
    Folder,

    /// <summary>A link that was not followed.</summary>
    Link,

    /// <summary>A named pipe (FIFO), or one that a shell made.</summary>
    Pipe,

    /// <summary>A socket.</summary>
    Socket,

    /// <summary>A device that takes and gives bytes one after the other, such as <c>/dev/null</c>.</summary>
    Device,

    /// <summary>A disk or part of one.</summary>
    Disk,
}
