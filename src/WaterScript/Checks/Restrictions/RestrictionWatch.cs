using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Holds the runs of a site to its restrictions while they stream past. Each instant is judged by its own local date and time.</summary>
internal sealed class RestrictionWatch : IRunWatch
{
    private readonly Site _site;
    private readonly WateredDays _pieces;

    public RestrictionWatch(Timetable timetable)
    {
        _site = timetable.Site;
        var moments = MomentReader.For(_site);
        _pieces = new WateredDays(moments.Clock);
        Judges = [.. _site.Restrictions.Select(restriction => new RestrictionJudge(restriction, timetable, moments))];
    }

    /// <summary>One for each restriction, in order of the file.</summary>
    public ImmutableArray<RestrictionJudge> Judges { get; }

    /// <summary>What a rule finds; complete when the walk is over.</summary>
    public IEnumerable<Breach> BreachesOf(Rule rule)
    {
        foreach (var piece in _pieces.Rest()) Judge(piece);
        return Judges.SelectMany(judge => judge.Breaches).Where(breach => breach.Rule == rule);
    }

    /// <summary>What cannot be judged, for each restriction.</summary>
    public IEnumerable<string> EachNotChecked(Func<RestrictionJudge, Restriction, string?> why) =>
        Judges.Select((judge, index) => why(judge, _site.Restrictions[index])).OfType<string>();

    /// <inheritdoc/>
    public bool Wants(Zone zone) => !Judges.IsEmpty;

    /// <inheritdoc/>
    public void See(in Run run)
    {
        foreach (var piece in _pieces.Before(run)) Judge(piece);
    }

    private void Judge(in WateredPiece piece)
    {
        foreach (var judge in Judges) judge.See(piece);
    }
}
