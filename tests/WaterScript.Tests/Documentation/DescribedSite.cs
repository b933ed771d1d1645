using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Documents.Timetables;
using WaterScript.Language;
using WaterScript.Tests.Documents;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>A site around one block, with one property of it or without, as <c>compile</c> describes it.</summary>
internal static class DescribedSite
{
    private const string Name = "tested";

    /// <summary>What stands in a block in place of a property, where it cannot stand without: the value differs from that of the form.</summary>
    private static readonly Dictionary<string, string> InPlaceOf = new(StringComparer.Ordinal)
    {
        ["site timezone"] = "timezone UTC",
        ["site effective"] = "effective 2026-02-01",
        ["tariff currency"] = "currency USD",
        ["zone output"] = "output 1 of hut",
        ["pump supply"] = "supply main",
        ["pump zones"] = "supply main",
        ["master supply"] = "supply main",
        ["master zones"] = "supply main",
        ["injector supply"] = "supply main",
        ["injector zones"] = "supply main",
        ["scale since"] = "by climate",
        ["scale by"] = "jan 50 %",
    };

    /// <summary>
    /// The documents of a site with a line in a block, or with what stands there in place of the property: JSON, and YAML read into the same tree.
    /// </summary>
    public static (JsonNode Json, JsonNode Yaml) Of(BlockSchema block, Property property, string? line)
    {
        var text = TextOf(block.Kind, property.Name, line);
        var reading = SiteReader.Read(
            SourceText.From("site.water", text), "site.water", new MemoryFiles(new Dictionary<string, string>()), DateTimeZoneProviders.Tzdb);
        Assert.True(
            reading.Site is not null && !reading.Findings.HasErrors,
            $"{string.Join('\n', reading.Findings.Select(finding => finding.Heading))}\n{text}");
        var timetable = Timetable.Of(reading.Site, Horizon.DaysFrom(reading.Site.Effective, 1));
        return (JsonNode.Parse(Write(timetable, OutputFormat.Json))!, Trees.FromYaml(Write(timetable, OutputFormat.Yaml))!);
    }

    /// <summary>The value of a key for the tested block, or null.</summary>
    public static JsonNode? Find(JsonNode document, string section, DescribedKey key)
    {
        var place = document;
        foreach (var step in section.Split('/'))
        {
            place = place![step];
            if (place is JsonArray list) place = list.FirstOrDefault(entry => (string?)entry!["name"] == Name);
        }

        return key.Inner is null ? place?[key.Name] : place?[key.Name]?[key.Inner];
    }

    private static string Write(Timetable timetable, OutputFormat format)
    {
        var output = new MemoryStream();
        TimetableOutput.Write(timetable, format, new OutputOptions(), output);
        return Encoding.UTF8.GetString(output.ToArray());
    }

    private static string TextOf(string kind, string property, string? line)
    {
        line ??= InPlaceOf.GetValueOrDefault($"{kind} {property}") ?? (kind == "scale" ? "since 2025-01-01 40 %" : "");
        return $$"""
            site {{(kind == "site" ? "tested" : "garden")}} {
            {{Lines(kind, "site", line, "timezone UTC", "effective 2026-02-01", "location 38 N 9 W")}}
            }
            tariff town { currency EUR; price 1 per m3 }
            supply main { flow 40 L/min; tariff town }
            supply cistern { flow 30 L/min; tank 8 m3 }
            controller hut { outputs 20 }
            controller shed { outputs 20 }
            controller box { power { battery 3 Ah at 6 V } }
            valve ac24 non-latching { }
            zone lawn { output 3 of hut; supply main; flow 10 L/min; rate 10 mm/h; plants turf-cool }
            zone beds { output 4 of hut; supply main }
            zone pots { output 5 of hut; supply main }
            scale year { jan 90 % }
            climate {
            {{Lines(kind, "climate", line, [.. MonthNames.All.Select(month => $"{month} 5 C to 15 C, rain 50 mm")])}}
            }
            {{BlockOf(kind, line)}}
            schedule tested {
              every day
              start at 06:00
              steps { water lawn for 10 min }
            }
            """;
    }

    private static string BlockOf(string kind, string line) => kind switch
    {
        "site" or "climate" => "",
        "power" when line.StartsWith("transformer", StringComparison.Ordinal) => $"controller tested {{\npower {{\n{line}\n}}\n}}",
        "power" => $"controller tested {{\npower {{\n{Lines(kind, kind, line, "battery 5 Ah at 6 V")}\n}}\n}}",
        "zone" when line == "hand-watered" => "zone tested { hand-watered; supply main }",
        "zone" => $"zone tested {{\n{Lines(kind, kind, line, "output 1 of hut", "supply main")}\n}}",
        "supply" => $"supply tested {{\n{line}{(line.StartsWith("other-use", StringComparison.Ordinal) ? "; tariff town" : "")}\n}}",
        "tariff" => $"tariff tested {{\n{Lines(kind, kind, line, "currency EUR", "price 1 per m3")}\n}}",
        "pump" or "master" or "injector" => $"{kind} tested {{\n"
            + $"{(line.StartsWith("zones", StringComparison.Ordinal) ? line : Lines(kind, kind, line, "supply main"))}\n}}",
        _ when kind.StartsWith("valve ", StringComparison.Ordinal) => $"valve tested {kind["valve ".Length..]} {{\n{line}\n}}",
        _ => $"{kind} tested {{\n{line}\n}}",
    };

    /// <summary>The usual lines of a block; in the tested one a line stands in place of the usual line of its property.</summary>
    private static string Lines(string tested, string kind, string line, params string[] usual) => string.Join('\n', tested == kind
        ? usual.Where(one => one.Split(' ')[0] != line.Split(' ')[0]).Append(line)
        : usual);
}
