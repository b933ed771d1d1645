using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Binding;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Syntax.Formatting;
using WaterScript.Tests.Simulation;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Answers.Diff;

/// <summary>Whether two versions water alike is what the lists of their runs say, for edits nobody thought of.</summary>
public sealed partial class WateringChangesTests
{
    private static readonly int SitesEach = Samples.OfBatch(60);
    private const int Days = 25;

    public static TheoryData<int> Batches => [.. Samples.Batches(4)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_edits_change_the_watering_where_the_runs_differ(int batch)
    {
        var (changed, same) = (0, 0);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(number);
            if (RandomRunsTests.Read(source.Text, out _) is not { } old) continue;
            var random = new Random(number);
            for (var turn = 0; turn < 4; turn++)
            {
                var text = Edited(source.Text, random);
                if (RandomRunsTests.Read(text, out _) is not { } @new) continue;
                var horizon = Horizon.DaysFrom(source.From, Days);
                var differ = !Water(old, horizon).SequenceEqual(Water(@new, horizon));
                var changes = Compare(old, @new, horizon);
                var doOtherwise = !Openings(old, horizon).SequenceEqual(Openings(@new, horizon), StringComparer.Ordinal);
                Assert.True(doOtherwise == changes.Devices.First is not null, $"number {number}, turn {turn}: {doOtherwise}\n{Shown(changes)}\n{text}");
                Assert.True(differ == changes.IsChanged, $"number {number}, turn {turn}: {differ}\n{Shown(changes)}\n{source.Text}\n---\n{text}");
                if (differ) changed++;
                else same++;
            }
        }

        Assert.True(changed > SitesEach / 3 && same > SitesEach / 3, string.Create(CultureInfo.InvariantCulture, $"{changed} changed, {same} the same"));
    }

    [Theory]
    [MemberData(nameof(Batches))]
    public void A_layout_and_an_order_of_schedules_are_no_change(int batch)
    {
        for (var number = batch * 10; number < (batch + 1) * 10; number++)
        {
            var source = RandomSource.Of(number);
            if (RandomRunsTests.Read(source.Text, out _) is not { } old) continue;
            var laidOut = Formatter.Format(SourceText.From("site.water", source.Text), [])!.Text;
            Assert.False(Compare(old, RandomRunsTests.Read(laidOut, out _)!, Horizon.DaysFrom(source.From, Days)).IsChanged);
            Assert.False(Compare(old, RandomRunsTests.Read(source.TextWithSchedulesReversed(), out _)!, Horizon.DaysFrom(source.From, Days)).IsChanged);
        }
    }

    /// <summary>All that is watered, the litres and the depth of each zone, and a pass of each manual schedule, as lines.</summary>
    private static IEnumerable<string> Water(Site site, Horizon horizon)
    {
        var runs = Timetable.Of(site, horizon).Runs().Select(run => (Zone: site.Zones[run.Zone], run.Start, run.End)).ToList();
        var lines = runs.Select(run => string.Create(CultureInfo.InvariantCulture, $"{run.Zone.Name} {run.Start} {run.End}"))
            .Concat(runs.GroupBy(run => run.Zone).Select(zone => (Zone: zone.Key, Seconds: zone.Sum(run => run.End - run.Start)))
                .Select(water => string.Create(CultureInfo.InvariantCulture,
                $"{water.Zone.Name} {water.Zone.LitresPerMinute * water.Seconds:0.######} {water.Zone.MillimetresPerHour * water.Seconds:0.######}")));
        foreach (var manual in site.Schedules.Where(schedule => schedule.IsManual))
        {
            lines = lines.Append($"manual {manual.Name}").Concat(Timetable.OfOnePass(site, manual, horizon.From.At(LocalTime.Noon)).Runs()
                .Select(run => string.Create(CultureInfo.InvariantCulture, $"manual {manual.Name} {site.Zones[run.Zone].Name} {run.Start} {run.End}")));
        }

        return lines.Order(StringComparer.Ordinal);
    }

    /// <summary>All that opens, as lines.</summary>
    private static IEnumerable<string> Openings(Site site, Horizon horizon) => Timetable.Of(site, horizon).Openings()
        .Select(opening => string.Create(CultureInfo.InvariantCulture,
            $"{opening.From} {opening.To} {site.Controllers[opening.Controller].Name} {opening.Output} {NameOf(site, opening)}"))
        .Order(StringComparer.Ordinal);

    private static string NameOf(Site site, Opening opening) =>
        opening.Zone >= 0 ? $"zone {site.Zones[opening.Zone].Name}" : $"{site.Devices[opening.Device].Kind} {site.Devices[opening.Device].Name}";

    private static string Shown(WateringChanges changes)
    {
        using var output = new StringWriter();
        ChangesText.Write(changes, new PlainLines(output));
        return output.ToString();
    }

    private static WateringChanges Compare(Site old, Site @new, Horizon horizon) => WateringChanges.Of(Checked(old), Checked(@new), horizon);

    private static CheckedSite Checked(Site site) => new("site.water", new SiteReading(site, [], []), Lint: null);

    /// <summary>Another number, another day, a line less, a line twice, or only another layout.</summary>
    private static string Edited(string text, Random random)
    {
        var lines = text.TrimEnd('\n').Split('\n').ToList();
        var inBlocks = Enumerable.Range(0, lines.Count).Where(index => lines[index].StartsWith(' ') && Number().IsMatch(lines[index])).ToList();
        var at = inBlocks.Count > 0 && random.Next(4) > 0 ? inBlocks[random.Next(inBlocks.Count)] : random.Next(lines.Count);
        switch (random.Next(6))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines[at] = lines[at].Replace("mon", "tue", StringComparison.Ordinal).Replace("wed", "sun", StringComparison.Ordinal);
                break;
            case 2:
                lines[at] = "  " + lines[at] + "   # as before";
                break;
            case 3:
                (lines[at], lines[^1]) = (lines[at] + "\n", lines[^1] + "\n");
                break;
            default:
                var numbers = Number().Matches(lines[at]);
                if (numbers.Count == 0) break;
                var number = numbers[random.Next(numbers.Count)];
                var other = (long.Parse(number.Value, CultureInfo.InvariantCulture) + random.Next(1, 3)).ToString(CultureInfo.InvariantCulture)
                    .PadLeft(number.Length, '0');
                lines[at] = lines[at][..number.Index] + other + lines[at][(number.Index + number.Length)..];
                break;
        }

        return string.Join('\n', lines) + "\n";
    }

    [GeneratedRegex(@"\b\d{1,4}\b")]
    private static partial Regex Number();
}
