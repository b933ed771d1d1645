using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Restrictions;

/// <summary>Holds the runs of a site to its restrictions while they stream past. Each instant is judged by its own local date and time.</summary>
internal sealed class RestrictionMonitor : IRunObserver
{
    private readonly Timetable _timetable;
    private readonly Site _site;
    private readonly long _work;
    private readonly WateredDays _pieces;

    public RestrictionMonitor(Timetable timetable)
    {
        _timetable = timetable;
        _site = timetable.Site;
        _work = _site.Restrictions.Sum(WorkOf);
        var moments = MomentReader.For(_site);
        _pieces = new WateredDays(moments.Clock);
        Judges = [.. _site.Restrictions.Select(restriction => new RestrictionJudge(restriction, timetable, moments))];
    }

    /// <summary>One for each restriction, in order of the file.</summary>
    public ImmutableArray<RestrictionJudge> Judges { get; }

    /// <summary>What is broken in one way; complete when the walk is over.</summary>
    public IEnumerable<Breach> BreachesOf(BreachKind kind)
    {
        foreach (var piece in _pieces.Rest()) Judge(piece);
        return Judges.SelectMany(judge => judge.Breaches).Where(breach => breach.Kind == kind);
    }

    /// <summary>Each restriction, with what judges it.</summary>
    public IEnumerable<(RestrictionJudge Judge, Restriction Restriction)> Each => Judges.Zip(_site.Restrictions);

    /// <inheritdoc/>
    public bool Observes(Zone zone) => !Judges.IsEmpty;

    /// <inheritdoc/>
    public void Visit(in Run run)
    {
        foreach (var piece in _pieces.Before(run)) Judge(piece);
    }

    private void Judge(in WateredPiece piece)
    {
        _timetable.Budget?.Spend(_work);
        foreach (var judge in Judges) judge.Visit(piece);
    }

    /// <summary>The work of judging a piece of a run by a restriction: all its hours may be looked through, and each line and exemption.</summary>
    private static long WorkOf(Restriction restriction) =>
        5 + (6 * restriction.AllowedHours.Length) + (3 * restriction.AtMost.Length) + restriction.Exempt.Length;
}
