using System.Collections.Immutable;

namespace WaterScript.Syntax;

/// <summary>What a pair of braces with steps gave.</summary>
internal sealed class StepList
{
    private readonly List<StepNode> _steps = [];
    private readonly List<AcceptNode> _accepts = [];

    public ImmutableArray<StepNode> Steps => [.. _steps];

    public ImmutableArray<AcceptNode> Accepts => [.. _accepts];

    public void Add(StepNode? step)
    {
        if (step is not null) _steps.Add(step);
    }

    public void Add(AcceptNode? accept)
    {
        if (accept is not null) _accepts.Add(accept);
    }

    /// <summary>Adds a block of steps. Where its head could not be read, its steps stand for it, so that they are still looked at.</summary>
    public void AddBlock(StepList inside, StepNode? block)
    {
        if (block is not null) _steps.Add(block);
        else _steps.AddRange(inside._steps);
    }
}
