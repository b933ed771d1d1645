using System.Diagnostics;

namespace WaterScript.Fuzz.Stages;

/// <summary>An input does not get through.</summary>
/// <param name="Signature">The same for all inputs that fail in the same way.</param>
/// <param name="Details">What happened with this one.</param>
public sealed record Failure(string Signature, string Details)
{
    private const string Own = "WaterScript.";

    /// <summary>What went wrong in a stage.</summary>
    public static Failure Of(string stage, Exception problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        if (problem is AggregateException { InnerException: { } inner }) return Of(stage, inner);
        return problem is BrokenException broken
            ? new Failure($"{stage}: {broken.What}", broken.Message)
            : new Failure($"{stage}: {problem.GetType().Name} in {PlaceOf(problem)}", problem.ToString());
    }

    /// <summary>The first method of the compiler's own on the way up.</summary>
    private static string PlaceOf(Exception problem)
    {
        foreach (var frame in new StackTrace(problem).GetFrames())
        {
            if (DiagnosticMethodInfo.Create(frame) is { DeclaringTypeName: { } type } method
                && type.StartsWith(Own, StringComparison.Ordinal)) return $"{type[(type.LastIndexOf('.') + 1)..]}.{method.Name}";
        }

        return "the runtime";
    }
}
