using System.ComponentModel;
using System.Diagnostics;

namespace WaterScript.Cli.LanguageServer;

/// <summary>Looks whether the editor is still there: one that was killed says nothing, and something else may hold its pipe open.</summary>
internal sealed class ParentWatch : IDisposable
{
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(2);
    private readonly Timer _timer;

    /// <summary>Watches a process.</summary>
    /// <param name="process">Its number.</param>
    /// <param name="gone">Called once it is not there any more, from another thread.</param>
    public ParentWatch(int process, Action gone) => _timer = new Timer(_ =>
    {
        if (!IsThere(process)) gone();
    }, null, Beat, Beat);

    /// <inheritdoc/>
    public void Dispose() => _timer.Dispose();

    private static bool IsThere(int process)
    {
        try
        {
            using var found = Process.GetProcessById(process);
            return !found.HasExited;
        }
        catch (ArgumentException)
        {
            return false;
        }
        catch (Exception problem) when (problem is InvalidOperationException or Win32Exception)
        {
            return true; // It is there, and somebody else's.
        }
    }
}
