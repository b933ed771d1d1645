namespace WaterScript.Diagnostics;

/// <summary>
/// How much work may be done for one answer, counted and never timed, so that the same source comes equally far on any machine. Whoever does work
/// in proportion to what a file multiplies spends it here; whoever gave the budget catches what is thrown when it is used up, and reports
/// how far the work came. It belongs to one thread at a time.
/// </summary>
/// <param name="units">The most work; a unit takes about ten nanoseconds.</param>
/// <param name="stop">Nobody needs the answer any more: what spends gets an <see cref="OperationCanceledException"/>.</param>
internal sealed class WorkBudget(long units, CancellationToken stop = default)
{
    /// <summary>After so much work it is looked at whether somebody still needs the answer: about a millisecond.</summary>
    private const long BetweenLooks = 100_000;

    private long _nextLook = BetweenLooks;
    private int _aside;
    private readonly List<long> _bySource = [];

    /// <summary>The most work.</summary>
    public long Units { get; private set; } = units;

    /// <summary>The work done so far.</summary>
    public long Spent { get; private set; }

    /// <summary>Whether it is used up.</summary>
    public bool IsUsedUp => Spent > Units;

    /// <summary>
    /// The first date of which something is not done yet, in days since 1970-01-01; what spends sets it as it moves on.
    /// </summary>
    public int ReachedDay { get; private set; } = int.MinValue;

    /// <summary>Counts work.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units)
    {
        Spent += units;
        if (Spent > Units) throw new WorkUsedUpException(this);
        if (Spent < _nextLook) return;
        stop.ThrowIfCancellationRequested();
        _nextLook = Spent + BetweenLooks;
    }

    /// <summary>Counts work that somebody asks for by a line of the file.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <param name="source">Index of the one who asks, such as a schedule's.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units, int source)
    {
        while (_bySource.Count <= source) _bySource.Add(0);
        _bySource[source] += units;
        Spend(units);
    }

    /// <summary>Counts what is held in memory at once, which has a limit of its own: more than that uses the budget up.</summary>
    /// <param name="count">What is held now.</param>
    /// <param name="most">The most.</param>
    /// <exception cref="WorkUsedUpException">It is too much.</exception>
    public void Hold(long count, long most)
    {
        if (count > most) Spend(Units - Spent + 1);
    }

    /// <summary>Allows more work, for input that came in meanwhile.</summary>
    /// <param name="units">The work, 0 or more.</param>
    public void Allow(long units) => Units += Math.Min(units, long.MaxValue - Units);

    /// <summary>Nothing is spent any more, for another stage of the same answer.</summary>
    public void Renew() => (Spent, _nextLook) = (0, BetweenLooks);

    /// <summary>All before a date is done.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public void Reach(int day)
    {
        if (_aside == 0) ReachedDay = Math.Max(ReachedDay, day);
    }

    /// <summary>Until the end of what is returned, dates are worked out in advance: that is work, and brings the answer no further.</summary>
    public IDisposable Aside() => new InAdvance(this);

    private sealed class InAdvance : IDisposable
    {
        private readonly WorkBudget _budget;

        public InAdvance(WorkBudget budget)
        {
            _budget = budget;
            _budget._aside++;
        }

        public void Dispose() => _budget._aside--;
    }

    /// <summary>The one who asked for most, and the share of all that was asked for by a line, 0 to 1; null when nobody asked.</summary>
    public (int Source, double Share)? Greatest
    {
        get
        {
            if (_bySource.Count == 0) return null;
            var most = _bySource.Max();
            return (_bySource.IndexOf(most), most / (double)Math.Max(1, _bySource.Sum()));
        }
    }
}

/// <summary>A <see cref="WorkBudget"/> is used up. It is caught by whoever gave the budget.</summary>
internal sealed class WorkUsedUpException : Exception
{
    /// <summary>Makes one.</summary>
    public WorkUsedUpException() : base("the budget of work is used up") { }

    /// <summary>Makes one of a budget, as it is then.</summary>
    public WorkUsedUpException(WorkBudget budget) : this()
    {
        ArgumentNullException.ThrowIfNull(budget);
        ReachedDay = budget.ReachedDay == int.MinValue ? null : budget.ReachedDay;
        Greatest = budget.Greatest;
    }

    /// <summary>The first date of which something was not done, in days since 1970-01-01; null where it came to none.</summary>
    public int? ReachedDay { get; }

    /// <summary>The one who asked for most, as <see cref="WorkBudget.Greatest"/> has it.</summary>
    public (int Source, double Share)? Greatest { get; }

    /// <summary>Makes one with other words.</summary>
    public WorkUsedUpException(string message) : base(message) { }

    /// <summary>Makes one with a cause.</summary>
    public WorkUsedUpException(string message, Exception innerException) : base(message, innerException) { }
}
