namespace WaterScript.Cli.Files;

/// <summary>A file was needed, and something else stands there.</summary>
/// <param name="kind">What it is.</param>
internal sealed class NotAFileException(FileKind kind) : IOException
{
    /// <summary>What it is, in words.</summary>
    public string Words => kind switch
    {
        FileKind.Folder => "it is a folder, not a file",
        FileKind.Pipe => "it is a pipe, not a file; standard input is read as -",
        FileKind.Socket => "it is a socket, not a file",
        FileKind.Disk => "it is a disk, not a file",
        FileKind.Link => "it is a link, not a file",
        _ => "it is a device, not a file",
    };
}
