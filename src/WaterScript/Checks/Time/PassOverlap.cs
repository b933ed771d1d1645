using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A pass that begins before one of the same schedule is over.</summary>
internal sealed class PassOverlap : ISeesRuns
{
    public static Rule Rule { get; } = new("pass-overlap", Severity.Error, "a pass that begins before the one before it is over")
    {
        CanBeAccepted = true,
        Finds = """
            A repeat, another start or the next day's start of a schedule comes while the pass before it still waters. A pass lasts from its
            first watering to the end of its last, with what lies between.
            """,
        Matters = """
            Both passes water at once: more flow than the plan shows, and zones that get less than written where both want them.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              repeat every 15 min for 3 passes
              steps {
                water beds for 10 min
                water lawn for 10 min
              }
            }
            """,
        Mended = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              repeat every 20 min for 3 passes
              steps {
                water beds for 10 min
                water lawn for 10 min
              }
            }
            """,
        KnownLimits = """
            What comes only after the dates that are looked at is a warning, and is found where the schedule starts at times of the clock; an overlap that only a
            clock change would make is not looked for there.
            """,
        FixSafety = "Lengthens the repeat interval to the longest pass. Unsafe: later passes move, and with `until` there are fewer of them.",
    };

    private readonly Survey _survey;
    private readonly PassesUnderWay?[] _passes;
    private readonly Dictionary<(int Schedule, Location Origin), Overlap> _overlaps = [];

    public PassOverlap(Survey survey)
    {
        _survey = survey;
        _passes = new PassesUnderWay?[survey.Site.Schedules.Length];
    }

    public void See(in Run run) => (_passes[run.Schedule] ??= new PassesUnderWay(_survey.Timetable, Meet)).See(run);

    public IEnumerable<Finding> Findings() =>
        [.. _overlaps.Values.Select(FindingFor), .. _survey.WholeCycle.WithThemselves(schedule => _overlaps.Keys.Any(key => key.Schedule == schedule)).Select(FindingFor)];

    private void Meet(PassUnderWay earlier, PassUnderWay later)
    {
        var repeat = earlier.Start == later.Start && earlier.Day == later.Day ? _survey.Site.Schedules[later.Schedule].Repeat : null;
        var key = (later.Schedule, repeat?.Origin ?? _survey.StartOf(later.Schedule, later.Start));
        if (!_overlaps.TryGetValue(key, out var overlap)) _overlaps[key] = overlap = new Overlap(key.Schedule, key.Item2, repeat);
        if (overlap.Recurrence.Add(later.First, _survey)) (overlap.Earlier, overlap.Later) = (earlier, later);
    }

    private Finding FindingFor(Overlap overlap)
    {
        var schedule = _survey.Site.Schedules[overlap.Schedule];
        var (earlier, later) = (overlap.Earlier!, overlap.Later!);
        var tooSoon = Wording.Length(earlier.End - later.First);
        var start = _survey.StartOf(overlap.Schedule, earlier.Start);
        return Finding.At(Rule, overlap.Origin, $"a pass of \"{schedule.Name}\" begins before the one before it is over", $"{tooSoon} too soon") with
        {
            Others = start == overlap.Origin ? [] : [new Label(start, $"the pass before waters from {_survey.Time(earlier.First)} to {_survey.Time(earlier.End)}")],
            Happens = overlap.Recurrence.Happens(_survey),
            WayOut = overlap.Repeat is null
                ? $"Move one of the starts by {tooSoon} or more, or shorten the steps."
                : $"Repeat every {Wording.Length(IntervalFor(overlap))}, or shorten the steps.",
            Fix = overlap.Repeat is null ? null : Lengthened(overlap.Repeat, IntervalFor(overlap)),
        };
    }

    private Finding FindingFor(LaterMeeting meeting)
    {
        var (earlier, later) = (meeting.Earlier, meeting.Later);
        var schedule = _survey.Site.Schedules[later.Run.Schedule];
        var tooSoon = Wording.Length(earlier.To - later.From);
        var (start, before) = (_survey.StartOf(later.Run), _survey.StartOf(earlier.Run));
        return Finding.At(Rule, start, $"a pass of \"{schedule.Name}\" begins before the one before it is over", $"{tooSoon} too soon") with
        {
            Severity = LaterMeeting.Severity,
            Others = start == before ? [] : [new Label(before, $"the pass before waters from {_survey.Time(earlier.From)} to {_survey.Time(earlier.To)}")],
            Happens = meeting.Happens(_survey),
            Details = meeting.RestsOn(_survey),
            WayOut = $"Move one of the starts by {tooSoon} or more, or shorten the steps.",
        };
    }

    /// <summary>A pass may overlap several later ones, so the interval is that of the longest pass, not the interval and what is missing.</summary>
    private long IntervalFor(Overlap overlap) => Math.Max(_survey.Timetable.LongestSecondsOf(overlap.Schedule), 1);

    private static Fix? Lengthened(Repeat repeat, long seconds)
    {
        var text = repeat.Origin.Text;
        var from = text.IndexOf("every ", StringComparison.Ordinal) + "every ".Length;
        var to = text.IndexOf(repeat is RepeatTimes ? " for " : " until ", StringComparison.Ordinal);
        if (from < "every ".Length || to < from) return null;
        var place = new Location(repeat.Origin.Source, TextSpan.FromBounds(repeat.Origin.Span.Start + from, repeat.Origin.Span.Start + to));
        var length = Wording.Length(seconds);
        return Fix.Unsafe($"repeat every {length}", place, length);
    }

    private sealed class Overlap(int schedule, Location origin, Repeat? repeat)
    {
        public int Schedule { get; } = schedule;

        public Location Origin { get; } = origin;

        public Repeat? Repeat { get; } = repeat;

        public Recurrence Recurrence { get; } = new();

        public PassUnderWay? Earlier { get; set; }

        public PassUnderWay? Later { get; set; }
    }
}
