using WaterScript.Calendars;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>Days marked at steps, against counting them one by one.</summary>
public sealed class DayBitsTests
{
    [Fact]
    public void Every_so_many_days_are_those_counted_one_by_one()
    {
        var random = new Random(24);
        for (var each = 0; each < 4_000; each++)
        {
            var (from, length, step) = (random.Next(-50_000, 50_000), random.Next(0, each % 10 == 0 ? 40_000 : 3_000), random.Next(1, 90));
            var (first, last) = (from + random.Next(-300, 900), from + length + random.Next(-900, 300));
            var bits = new DayBits(from, length);
            bits.Mark(from + 5);
            bits.MarkEvery(step, first, last);
            var expected = new SortedSet<int>(Enumerable.Range(from, length).Where(day => day == from + 5));
            for (long day = first; day <= last; day += step)
            {
                if (day >= from && day < from + length) expected.Add((int)day);
            }

            var found = new List<int>();
            for (var day = bits.Next(from); day is { } due; day = bits.Next(due + 1)) found.Add(due);
            Assert.Equal(expected, found);
        }
    }
}
