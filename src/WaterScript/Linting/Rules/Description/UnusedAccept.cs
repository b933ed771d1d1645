using System.Collections.Immutable;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Description;

/// <summary>An <c>accept</c> that accepts nothing. It is judged when all other rules have spoken.</summary>
internal static class UnusedAccept
{
    public static Rule Rule { get; } = new("unused-accept", Severity.Warning, "an `accept` that accepts nothing")
    {
        Category = RuleCategory.Reading,
        IsAboutUse = true,
        Finds = """
            An `accept` line whose rule finds nothing in its scope, or that has lapsed: its `until` date is not after the first day that is looked at.
            """,
        Matters = """
            A line that accepts nothing today would silence a mistake that somebody makes tomorrow.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule evening {
              every day
              start at 20:00
              accept skipped-time because "the clock change is at night"
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule evening {
              every day
              start at 20:00
              steps { water beds for 10 min }
            }
            """,
        FixSafety = "Deletes the line. Safe: the watering stays as it is.",
    };

    /// <summary>Whether a line holds no more.</summary>
    public static bool HasLapsed(Acceptance line, LocalDate first) => line.Until is { } until && until <= first;

    /// <summary>What is said of a line that accepted none of the findings.</summary>
    public static Finding FindingFor(Acceptance line, ImmutableArray<Finding> findings, LocalDate first) =>
        Finding.At(Rule, line.Origin, $"`accept {line.Rule.Text}` accepts nothing", Why(line, findings, first)) with
        {
            Help = "Delete the line.",
            Fix = Fix.SafeDeletion("delete the line", line.Origin),
        };

    private static string Why(Acceptance line, ImmutableArray<Finding> findings, LocalDate first)
    {
        if (HasLapsed(line, first)) return $"ended before {MomentWords.Date(first)}, where the check begins";
        return findings.Any(finding => finding.Rule.Slug == line.Rule.Text) ? "found, but not where this accepts it" : "not found here";
    }
}
