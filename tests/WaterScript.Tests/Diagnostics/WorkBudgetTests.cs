using WaterScript.Diagnostics;
using Xunit;

namespace WaterScript.Tests.Diagnostics;

/// <summary>Counting work.</summary>
public sealed class WorkBudgetTests
{
    [Fact]
    public void All_of_it_can_be_spent_and_no_more()
    {
        var budget = new WorkBudget(10);
        budget.Spend(4);
        budget.Spend(6);
        Assert.False(budget.IsUsedUp);
        Assert.Throws<WorkUsedUpException>(() => budget.Spend(1));
        Assert.True(budget.IsUsedUp);
    }

    [Fact]
    public void More_may_be_allowed_and_without_an_end_stays_without_an_end()
    {
        var budget = new WorkBudget(10);
        budget.Allow(5);
        budget.Spend(15);
        Assert.Equal((15, false), (budget.Units, budget.IsUsedUp));
        var endless = new WorkBudget(long.MaxValue);
        endless.Allow(5);
        endless.Spend(1_000);
        Assert.Equal((long.MaxValue, false), (endless.Units, endless.IsUsedUp));
    }

    [Fact]
    public void The_one_who_asks_for_most_is_known()
    {
        var budget = new WorkBudget(100);
        Assert.Null(budget.Greatest);
        budget.Spend(10, source: 2);
        budget.Spend(30, source: 0);
        budget.Spend(50);
        Assert.Equal((0, 0.75), budget.Greatest);
    }

    [Fact]
    public void As_much_may_be_held_as_the_limit_says_and_no_more()
    {
        var budget = new WorkBudget(10);
        budget.Spend(3);
        budget.Hold(5, most: 5);
        Assert.Equal((3, false), (budget.Spent, budget.IsUsedUp));
        Assert.Throws<WorkUsedUpException>(() => budget.Hold(6, most: 5));
        Assert.True(budget.IsUsedUp);
    }

    [Fact]
    public void What_was_reached_stays_reached()
    {
        var budget = new WorkBudget(1);
        budget.Reach(20_000);
        budget.Reach(19_000);
        Assert.Equal(20_000, budget.ReachedDay);
    }
}
