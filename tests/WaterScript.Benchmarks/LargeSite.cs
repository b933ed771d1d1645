using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Benchmarks;

/// <summary>A made-up site as large as wanted.</summary>
internal static class LargeSite
{
    private const int ZonesOfController = 40;

    /// <summary>The text of a site with so many zones and a schedule for every five of them, some with many passes a day.</summary>
    public static string Text(int zones)
    {
        var text = new StringBuilder();
        text.AppendLine("site large {\n  timezone Europe/Lisbon\n  effective 2026-01-01\n  location 39.6 N 8.1 W\n}");
        text.AppendLine("supply main { flow 900 L/min }");
        text.AppendLine("valve ac24 non-latching { inrush 400 mA; holding 220 mA }");
        for (var i = 1; i <= zones; i++)
        {
            text.AppendLine(CultureInfo.InvariantCulture,
                $"zone z{i} \"Zone {i}\" {{\n  output {i}\n  valve ac24\n  flow 12 L/min\n  area 60 m2\n  method spray\n}}");
        }

        for (var i = 1; i + 4 <= zones; i += 5)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $$"""
                schedule s{{i}} "Round {{i}}" {
                  {{(i % 10 == 1 ? "every 2 days" : "on mon, wed, fri")}}
                  start at {{i % 24:00}}:{{i % 60:00}}
                  repeat every 2 h for {{1 + (i % 4)}} passes
                  steps {
                    water z{{i}}, z{{i + 1}} for 6 min
                    pause 2 min
                    water z{{i + 2}} + z{{i + 3}}, z{{i + 4}} for 12 min
                  }
                }
                """);
        }

        return text.ToString();
    }

    /// <summary>
    /// The text of an estate: each controller with a supply, forty zones in lines of their own, and a round over all of them on two
    /// nights a week of the warm season. 300 controllers are some 100,000 lines.
    /// </summary>
    public static string Estate(int controllers)
    {
        var text = new StringBuilder();
        text.AppendLine("site estate {\n  timezone Europe/Lisbon\n  effective 2026-01-01\n  location 39.6 N 8.1 W\n}");
        text.AppendLine("valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 19 V }");
        for (var i = 1; i <= controllers; i++)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"supply main{i} {{\n  flow 40 L/min\n}}");
            text.AppendLine(CultureInfo.InvariantCulture, $"controller box{i} {{\n  outputs {ZonesOfController}\n  power {{ transformer 20 VA at 24 V }}\n}}");
            for (var output = 1; output <= ZonesOfController; output++)
                text.AppendLine(
                    CultureInfo.InvariantCulture,
                    $"zone z{i}-{output} \"Zone {output} of {i}\" {{\n  output {output} of box{i}\n  supply main{i}\n  valve ac24\n"
                        + $"  flow {10 + (output % 20)} L/min\n  area 60 m2\n  method rotor\n}}");

            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"schedule round{i} {{\n  on {(i % 2 == 0 ? "mon, thu" : "tue, fri")}\n  from 1 apr to 15 oct\n"
                    + $"  start at {20 + (i % 3)}:{i % 60:00}\n  steps {{");
            for (var output = 1; output <= ZonesOfController; output++) text.AppendLine(CultureInfo.InvariantCulture,
                $"    water z{i}-{output} for {4 + (output % 7)} min");
            text.AppendLine("  }\n}");
        }

        return text.ToString();
    }

    /// <summary>The site of a text.</summary>
    public static Site Read(string text) =>
        SiteReader.Read(SourceText.From("large.water", text), "large.water", NoFiles.Instance, DateTimeZoneProviders.Tzdb).Site
        ?? throw new InvalidOperationException("The made-up site cannot be read.");

    internal sealed class NoFiles : ISourceReader
    {
        public static NoFiles Instance { get; } = new();

        public SourceText? Read(string path) => null;
    }
}
