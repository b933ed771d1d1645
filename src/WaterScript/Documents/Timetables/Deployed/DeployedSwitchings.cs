using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>The openings and the switchings of a deployed timetable, of which only counts and hashes are needed.</summary>
internal sealed class DeployedSwitchings(YamlEvents events, Site site) : IDisposable
{
    private static readonly string[] Kinds = ["zone", "pump", "master", "injector"];

    private readonly Dictionary<(string Controller, string Output), string> _longest = [];
    private readonly Dictionary<string, CsvCopy> _byController =
        site.Controllers.ToDictionary(controller => controller.Name, _ => new CsvCopy(CsvSwitchings.Columns), StringComparer.Ordinal);

    /// <summary>The openings.</summary>
    public CsvCopy Openings { get; } = new(CsvOpenings.Columns);

    /// <summary>The switchings.</summary>
    public CsvCopy Switchings { get; } = new(CsvSwitchings.Columns);

    /// <summary>Reads the list of openings that begins here.</summary>
    public void ReadOpenings(ref int left)
    {
        const int firstKind = 6;
        var rows = new DeployedRows(events, "openings", ["opening", "from", "to", "controller", "runs"], ["output", .. Kinds]);
        while (rows.TryNext(ref left))
        {
            var kind = 0;
            while (kind < Kinds.Length && !rows.Has(firstKind + kind)) kind++;
            if (kind == Kinds.Length) throw rows.Problem("this opening is of no zone, pump, master or injector");
            var seconds = rows.Instant(2) - rows.Instant(1);
            if (seconds <= 0) throw rows.Problem("to is not after from");
            Openings.Line(rows[0], rows[1], rows[2], rows[3], rows[5], Kinds[kind], rows[firstKind + kind],
                seconds.ToString(CultureInfo.InvariantCulture), rows[4]);
        }
    }

    /// <summary>Reads the list of outputs that begins here, for how long each may stay on.</summary>
    public void ReadOutputs(ref int left)
    {
        var rows = new DeployedRows(events, "outputs", ["controller", "output", "for", "kind"], ["pulse_ms", "max_on_s"]);
        while (rows.TryNext(ref left))
        {
            if (_longest.Count == Limits.DeployedValues) throw rows.Problem("there are more outputs than a site can have");
            // What two are wired to is one output, which stands here for each of them.
            if (!_longest.TryAdd((rows[0], rows[1]), rows[5]) && _longest[(rows[0], rows[1])] != rows[5])
                throw rows.Problem("this output has two values of max_on_s");
        }
    }

    /// <summary>Reads the list of switchings that begins here.</summary>
    public void ReadSwitchings(ref int left)
    {
        var rows = new DeployedRows(events, "switchings", ["t", "controller", "output", "do", "opening"], ["after_ms", "polarity", "pulse_ms"]);
        while (rows.TryNext(ref left))
        {
            if (!_longest.TryGetValue((rows[1], rows[2]), out var longest))
                throw rows.Problem($"there is no output {Quoted.Of(rows[2])} of {Quoted.Of(rows[1])}");
            if (!_byController.TryGetValue(rows[1], out var own)) throw rows.Problem($"no controller is called {Quoted.Of(rows[1])}");
            ReadOnlySpan<string> fields = [rows[0], rows.Has(5) ? rows[5] : "0", rows[1], rows[2], rows[3], rows[6], rows[7], longest, rows[4]];
            Switchings.Line(fields);
            own.Line(fields);
        }
    }

    /// <summary>The hashes of all together and, where there are more controllers, of each alone.</summary>
    public IEnumerable<(string? Hash, Controller? Controller)> Hashes(Validity valid, Controller? only)
    {
        yield return (Switchings.Hash(valid), only);
        if (only is not null || site.Controllers.Length == 1) yield break;
        foreach (var controller in site.Controllers) yield return (_byController[controller.Name].Hash(valid), controller);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Openings.Dispose();
        Switchings.Dispose();
        foreach (var table in _byController.Values) table.Dispose();
    }
}
