using NodaTime;
using WaterScript.Binding;
using WaterScript.Calendars.TimeZones;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Keeping;

namespace WaterScript.Cli.Files.Caching;

/// <summary>
/// What checks found, in a folder, for the next check of the same: <c>3f/3f….check</c> by the hash of all that a check depends on. What is not there, is not
/// as it was written or cannot be read is checked; what cannot be written is not kept. Any number of processes may use one folder at once.
/// </summary>
/// <param name="folder">The folder, which need not be there.</param>
/// <param name="terminal">Where paths start from, and what time zones are taken.</param>
internal sealed class CheckCache(string folder, Terminal terminal)
{
    private const string Ending = ".check";

    /// <summary>So many files are in each of the 256 folders at most, and a few more while they are written; the oldest leave.</summary>
    internal const int MostFiles = 400;

    private string? _problem;

    /// <summary>Why something could not be kept; null where all was.</summary>
    public string? Problem => _problem;

    /// <summary>Checks a site, unless what that would find is known.</summary>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave.</param>
    /// <param name="from">First date to look at; null for the site's first.</param>
    /// <param name="check">Checks it.</param>
    public CheckedSite Of(string path, SiteReading reading, LocalDate? from, Func<CheckedSite> check)
    {
        // Other data of time zones has a name, which does not say all that is in it.
        if (reading is not { Site: not null, Findings.HasErrors: false } || terminal.TimeZones is not PackagedTimeZones) return check();
        var key = CheckKey.Of(ThisProgram.Build, path, reading, from);
        var file = FileOf(key);
        if (Read(file, key) is { } kept && KeptCheck.Read(kept, path, reading) is { } known) return known;
        var site = check();
        if (KeptCheck.Write(site) is { } bytes && CacheEntry.Of(key, bytes) is { } entry) Keep(file, entry);
        return site;
    }

    private string FileOf(byte[] key)
    {
        var name = Convert.ToHexStringLower(key);
        return Path.Combine(terminal.Surroundings.Whole(folder), name[..2], name + Ending);
    }

    private static ReadOnlyMemory<byte>? Read(string file, byte[] key)
    {
        try
        {
            if (!File.Exists(file)) return null;
            using var stream = RegularFile.Open(file);
            if (stream.Length > CacheEntry.MostBytes) return null;
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return CacheEntry.Kept(key, bytes);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Writes it beside its place first: nobody ever reads half of it, and of two who write the same one the later stays.</summary>
    private void Keep(string file, byte[] entry)
    {
        try
        {
            var part = Path.GetDirectoryName(file)!;
            Directory.CreateDirectory(part);
            var beside = "";
            using (var stream = TemporaryFile.Create(file, isPrivate: false))
            {
                beside = stream.Name;
                stream.Write(entry);
                if (OperatingSystem.IsWindows()) stream.Dispose(); // Elsewhere it stays locked until it has its place, so that nobody takes it for left behind.
                Move(beside, file);
            }

            RemoveOldest(part);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            _problem ??= IoWords.Of(problem);
        }
    }

    private static void Move(string beside, string file)
    {
        try
        {
            File.Move(beside, file, overwrite: true);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }
    }

    /// <summary>Whether it was being written when a process was killed, or is being written now, and then is among the newest.</summary>
    private static bool IsLeftBehind(string name) => name.StartsWith('.') && name.EndsWith(".tmp", StringComparison.Ordinal);

    /// <summary>Looked after where a file was written, which is seldom once all is known.</summary>
    private static void RemoveOldest(string part)
    {
        var files = Array.FindAll(new DirectoryInfo(part).GetFiles(), file => file.Name.EndsWith(Ending, StringComparison.Ordinal) || IsLeftBehind(file.Name));
        if (files.Length <= MostFiles) return;
        foreach (var old in files.OrderBy(file => file.LastWriteTimeUtc).Take(files.Length - MostFiles)) old.Delete();
    }
}
