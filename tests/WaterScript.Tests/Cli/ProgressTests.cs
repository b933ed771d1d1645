using WaterScript.Cli;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class ProgressTests : IDisposable
{
    private readonly StringWriter _line = new();
    private readonly HandMovedClock _clock = new();

    [Fact]
    public void What_takes_less_than_a_second_is_not_reported()
    {
        var progress = new Progress(_line, _clock);
        Assert.Equal(4, progress.During("Checking", () => After(0.99, 4)));
        Assert.Equal("", _line.ToString());
    }

    [Fact]
    public void What_takes_longer_is_reported_in_one_line_that_goes_again()
    {
        new Progress(_line, _clock).During("Checking", () => After(2.1, true));
        Assert.Equal("\rChecking, 1 s\rChecking, 2 s\r" + new string(' ', 13) + "\r", _line.ToString());
        Assert.Equal("", Screen());
    }

    [Fact]
    public void A_second_may_pass_in_several_stages_and_none_flashes_by()
    {
        var progress = new Progress(_line, _clock);
        progress.During("Checking", () => After(0.9, true));
        progress.During("Drawing", () => After(0.2, true));
        Assert.Equal("", _line.ToString());
        progress.During("Writing", () => After(0.3, true));
        Assert.StartsWith("\rWriting, 1 s\r", _line.ToString(), StringComparison.Ordinal);
        Assert.Equal("", Screen());
    }

    [Fact]
    public void Files_are_counted_and_a_shorter_line_leaves_nothing_of_a_longer_one()
    {
        var done = 0;
        var seen = new List<string>();
        new Progress(_line, _clock).During(
            "Checking",
            () =>
            {
                foreach (var reached in (int[])[0, 12, 9])
                {
                    done = reached;
                    _clock.Advance(1);
                    seen.Add(Screen());
                }

                return true;
            },
            Progress.OfFiles(() => done, 80));
        Assert.Equal(["Checking, 0 of 80 files, 1 s", "Checking, 12 of 80 files, 2 s", "Checking, 9 of 80 files, 3 s"], seen);
        Assert.Equal("", Screen());
        Assert.Null(Progress.OfFiles(() => 0, 1));
    }

    [Fact]
    public void The_line_goes_when_the_work_fails()
    {
        Assert.Throws<CommandException>(() => new Progress(_line, _clock).During<bool>("Checking", () => throw After(3, new CommandException("no"))));
        Assert.NotEqual("", _line.ToString());
        Assert.Equal("", Screen());
    }

    [Fact]
    public void Nothing_is_reported_where_somebody_types()
    {
        var progress = new Progress(_line, _clock);
        progress.Silence();
        progress.During("Reading", () => After(60, true));
        Assert.Equal("", _line.ToString());
    }

    [Fact]
    public void A_terminal_that_is_gone_leaves_the_work_alone() =>
        Assert.Equal(1, new Progress(new GoneWriter(), _clock).During("Checking", () => After(5, 1)));

    [Fact]
    public void A_line_is_narrow_and_has_no_codes()
    {
        new Progress(_line, _clock).During("Checking the old version", () => After(3_700, true), Progress.OfFiles(() => 1_000, 10_000));
        Assert.DoesNotContain('\e', _line.ToString());
        Assert.DoesNotContain('\n', _line.ToString());
    }

    public void Dispose() => _line.Dispose();

    private T After<T>(double seconds, T result)
    {
        _clock.Advance(seconds);
        return result;
    }

    /// <summary>What stands on the line after all that was written, without spaces at its end.</summary>
    private string Screen()
    {
        var cells = new char[200];
        Array.Fill(cells, ' ');
        var at = 0;
        foreach (var letter in _line.ToString())
        {
            if (letter == '\r') at = 0;
            else cells[at++] = letter;
        }

        return new string(cells).TrimEnd();
    }

    private sealed class GoneWriter : StringWriter
    {
        public override void Write(string? value) => throw new IOException("gone");
    }

    /// <summary>Time that passes only when somebody says so.</summary>
    private sealed class HandMovedClock : TimeProvider
    {
        private readonly List<Timer> _timers = [];
        private long _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => _now;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            var timer = new Timer(this, () => callback(state), _now + dueTime.Ticks, period.Ticks);
            _timers.Add(timer);
            return timer;
        }

        public void Advance(double seconds)
        {
            var until = _now + TimeSpan.FromSeconds(seconds).Ticks;
            while (_timers.Where(timer => timer.Due <= until).MinBy(timer => timer.Due) is { } next)
            {
                _now = next.Due;
                next.Ring();
            }

            _now = until;
        }

        private sealed class Timer(HandMovedClock clock, Action ring, long due, long period) : ITimer
        {
            public long Due { get; private set; } = due;

            public void Ring()
            {
                Due += period;
                ring();
            }

            public bool Change(TimeSpan dueTime, TimeSpan period) => throw new NotSupportedException();

            public void Dispose() => clock._timers.Remove(this);

            public ValueTask DisposeAsync()
            {
                Dispose();
                return ValueTask.CompletedTask;
            }
        }
    }
}
