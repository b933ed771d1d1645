using WaterScript.Mutation.Driving;
using WaterScript.Mutation.Judging;

namespace WaterScript.Mutation;

/// <summary>Makes the library wrong in one place at a time, and says what no test notices.</summary>
internal static class Program
{
    /// <summary>The first word of a process that runs tests.</summary>
    public const string JudgeWord = "judge";

    public static int Main(string[] words)
    {
        if (words is [JudgeWord, .. var rest])
        {
            Judge.Run(rest);
            return 0;
        }

        try
        {
            Run(Options.Read(words));
            return 0;
        }
        catch (FormatException problem)
        {
            Console.Error.WriteLine($"{problem.Message}\n\n{Options.Usage}");
            return 2;
        }
    }

    private static void Run(Options options)
    {
        var root = Directory.GetCurrentDirectory();
        var known = Part.Read(root);
        var parts = options.Parts.Select(name => known.FirstOrDefault(part => part.Name == name) ?? throw new FormatException(
            $"no part is called {name}; there are {string.Join(", ", known.Select(part => part.Name))}")).ToList();
        if (options.Builds) WorkingCopy.Bring(root);
        foreach (var part in parts) new PartRun(root, part, options).Run(Console.Out);
    }
}
