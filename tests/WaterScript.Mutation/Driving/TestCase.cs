namespace WaterScript.Mutation.Driving;

/// <summary>A test, without a mutant.</summary>
/// <param name="Index">Its line among all tests.</param>
/// <param name="Class">Its class, in which tests may share what one of them has made.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Milliseconds">How long it takes in a process that has run it before.</param>
/// <param name="ReachedFirst">The mutants that it reaches the first time.</param>
/// <param name="ReachedAgain">Those it reaches again. What is only in the other is kept from then on, by a static field or a cache.</param>
internal sealed record TestCase(
    int Index, string Class, string Name, double Milliseconds, IReadOnlySet<int> ReachedFirst, IReadOnlySet<int> ReachedAgain);
