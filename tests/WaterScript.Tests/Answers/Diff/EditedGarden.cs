using System.Globalization;

namespace WaterScript.Tests.Answers.Diff;

/// <summary>A garden with much of the language in it and numbers of chance, the same for the same number, and edits of it that have names.</summary>
internal sealed class EditedGarden
{
    private readonly Random _random;

    private EditedGarden(int number) => _random = new Random(number);

    /// <summary>The site as it was.</summary>
    public required string Old { get; init; }

    /// <summary>The site as it is.</summary>
    public required string New { get; init; }

    /// <summary>The line that was edited, from 1: in the new version, or in the old one where it is gone.</summary>
    public required int Line { get; init; }

    /// <summary>Words of the report that name the edit.</summary>
    public required string Words { get; init; }

    /// <summary>Names of the old version that the new one has otherwise.</summary>
    public (string Old, string New)? Renamed { get; init; }

    /// <summary>What is edited: the first text becomes the second, and the words name that. Numbers are worked out from the line.</summary>
    private static readonly Dictionary<string, Func<EditedGarden, string, Edit>> Kinds = new(StringComparer.Ordinal)
    {
        ["days"] = (_, _) => Edit.Of("  on mon, thu, sat", "  on tue, fri", "days mon, thu, sat → tue, fri"),
        ["season"] = (_, _) => Edit.Of("  from 1 apr to 30 sep", "  from 1 may to 31 aug", "season 1 apr to 30 sep → 1 may to 31 aug"),
        ["except"] = (_, _) => Edit.Of("  except 2026-06-04", "  except 2026-06-06", "except 2026-06-04 → 2026-06-06"),
        ["start"] = (_, _) => Edit.Of("  start at 05:10", "  start at 05:40", "start 05:10 → 05:40"),
        ["repeat"] = (_, _) => Edit.Of("  repeat every 2 h for 2 passes", "  repeat every 2 h for 3 passes", "every 2 h for 2 → 3 passes"),
        ["interval"] = (_, _) => Edit.Of("  every 3 days", "  every 4 days", "days every 3 days → every 4 days"),
        ["run time"] = (garden, text) => garden.Number(text, "    water front for ", " min", 2, 5, _ => "Lawn "),
        ["amount"] = (_, _) => Edit.Of("    water pots with 10 L", "    water pots with 16 L", "pots 5 min → 8 min"),
        ["pause"] = (garden, text) => garden.Number(text, "  pause ", " min", 1, 4, (was, now) => $"pause {was} → {now} min"),
        ["soak"] = (_, _) => Edit.Of("    cycle 5 min soak 10 min {", "    cycle 5 min soak 14 min {", "cycle 5 min soak 10 → 14 min"),
        ["let"] = (garden, text) => garden.Number(text, "let settle = ", " min", 1, 4, (was, now) => $"{was} → {now} min"),
        ["group"] = (_, _) => Edit.Of("group front = lawn, beds", "group front = lawn", "lawn, beds → lawn"),
        ["scale"] = (_, _) => Edit.Of("  jul 120 %", "  jul 150 %", "jul 120 → 150 %"),
        ["flow"] = (garden, text) =>
            garden.Number(text, "zone lawn \"Lawn\" { output 1 of box; flow ", " L/min", 1, 3, (was, now) => $"flow {was} → {now} L/min"),
        ["area"] = (_, _) => Edit.Of("area 60 m2", "area 75 m2", "area 60 → 75 m2"),
        ["trim"] = (_, _) => Edit.Of("trim 90 %", "trim 110 %", "trim 90 → 110 %"),
        ["output"] = (_, _) => Edit.Of("zone hedge { output 3 of box", "zone hedge { output 7 of box", "output 3 → 7 of box"),
        ["latching"] = (_, _) => Edit.Of("valve coil non-latching", "valve coil latching", "non-latching → latching"),
        ["stagger"] = (_, _) => Edit.Of("stagger 1 s", "stagger 3 s", "stagger 1 → 3 s"),
        ["lead"] = (_, _) => Edit.Of("starts 5 s before zones", "starts 60 s before zones", "starts 5 → 60 s before zones"),
        ["pump"] = (_, _) => Edit.Of("# pump", "pump boost { output 10 of box; zones hedge }", "pump boost: added"),
        ["supply"] = (_, _) => Edit.Of("supply main { flow 40 L/min }", "supply main { flow 12 L/min }", "flow 40 → 12 L/min"),
        ["hold"] = (_, _) => Edit.Of("hold beds from 2026-05-10 to 2026-05-12", "hold beds from 2026-05-10 to 2026-05-20", "to 2026-05-12 → 2026-05-20"),
        ["restriction"] = (_, _) => Edit.Of("at most 7 days a week", "at most 2 days a week", "at most 7 → 2 days a week"),
        ["renamed zone"] = (_, _) => Edit.Of("hedge", "yew", "zone yew: renamed from hedge") with { Renamed = ("hedge", "yew"), IsEverywhere = true },
        ["renamed schedule"] = (_, _) => Edit.Of("schedule morning {", "schedule dawn {", "renamed from morning, waters the same")
            with
        { Renamed = ("morning", "dawn") },
        ["label"] = (_, _) => Edit.Of("zone lawn \"Lawn\"", "zone lawn \"Front\"", "label \"Lawn\" → \"Front\""),
    };

    /// <summary>The names of the edits.</summary>
    public static IEnumerable<string> Names => Kinds.Keys;

    /// <summary>An edit of a garden.</summary>
    /// <param name="kind">One of <see cref="Names"/>.</param>
    /// <param name="number">Which garden.</param>
    public static EditedGarden Of(string kind, int number)
    {
        var garden = new EditedGarden(number) { Old = "", New = "", Line = 0, Words = "" };
        var old = garden.Written();
        var edit = Kinds[kind](garden, old);
        var at = old.IndexOf(edit.From, StringComparison.Ordinal);
        if (at < 0) throw new InvalidOperationException($"nothing to edit: {kind}");
        var @new = edit.IsEverywhere
            ? old.Replace(edit.From, edit.To, StringComparison.Ordinal)
            : old[..at] + edit.To + old[(at + edit.From.Length)..];
        var line = old[..at].Count(letter => letter == '\n') + 1;
        return new EditedGarden(number) { Old = old, New = @new, Line = line, Words = edit.Words, Renamed = edit.Renamed };
    }

    /// <summary>A number after a text becomes a greater one.</summary>
    private Edit Number(string text, string before, string after, int least, int most, Func<int, int, string> words)
    {
        var start = text.IndexOf(before, StringComparison.Ordinal) + before.Length;
        var was = int.Parse(text[start..text.IndexOf(after, start, StringComparison.Ordinal)], CultureInfo.InvariantCulture);
        var now = was + _random.Next(least, most);
        return Edit.Of(Text($"{before}{was}{after}"), Text($"{before}{now}{after}"), words(was, now));
    }

    private Edit Number(string text, string before, string after, int least, int most, Func<int, string> words) =>
        Number(text, before, after, least, most, (was, _) => words(was));

    private string Written() => Text($$"""
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 12; stagger 1 s; schedules may-overlap }
        supply main { flow 40 L/min }
        valve coil non-latching { }
        let settle = {{_random.Next(2, 6)}} min
        scale summer {
          jun 110 %
          jul 120 %
        }
        zone lawn "Lawn" { output 1 of box; flow {{_random.Next(7, 12)}} L/min; supply main; area 60 m2; trim 90 %; valve coil }
        zone beds { output 2 of box; flow {{_random.Next(3, 6)}} L/min; supply main; valve coil }
        zone hedge { output 3 of box; flow {{_random.Next(5, 9)}} L/min; supply main }
        zone pots { output 4 of box; flow 2 L/min; supply main }
        pump lift { output 9 of box; zones lawn, beds; starts 5 s before zones; stops 10 s after zones }
        # pump
        group front = lawn, beds
        restriction town { for hedge; at most 7 days a week }
        sequence round {
          water hedge for {{_random.Next(5, 11)}} min
          pause {{_random.Next(1, 5)}} min
          water pots for 3 min
        }
        hold beds from 2026-05-10 to 2026-05-12 because "planting"
        schedule morning {
          on mon, thu, sat
          from 1 apr to 30 sep
          except 2026-06-04
          start at 05:10
          scale summer
          steps {
            water front for {{_random.Next(15, 25)}} min
            pause settle
            run round
          }
        }
        schedule evening {
          every 3 days
          start at 20:00
          repeat every 2 h for 2 passes
          steps {
            cycle 5 min soak 10 min {
              water lawn for {{_random.Next(11, 15)}} min
            }
            water pots with 10 L
          }
        }

        """);

    private static string Text(FormattableString text) => FormattableString.Invariant(text);

    /// <summary>What is edited, into what, and how the report names it.</summary>
    private sealed record Edit(string From, string To, string Words)
    {
        public (string Old, string New)? Renamed { get; init; }

        public bool IsEverywhere { get; init; }

        public static Edit Of(string from, string to, string words) => new(from, to, words);
    }
}
