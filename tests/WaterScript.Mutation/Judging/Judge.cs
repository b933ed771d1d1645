using System.Diagnostics;
using System.Globalization;
using System.Text;
using Xunit.Abstractions;

namespace WaterScript.Mutation.Judging;

/// <summary>
/// A process that runs tests with the mutant that it is asked for: a question a line, an answer a line. <c>find</c> finds all tests, <c>reach TEST</c> says
/// which mutants a test reaches, <c>try MUTANT TEST:MILLISECONDS,…</c> whether one of the tests notices it.
/// </summary>
internal sealed class Judge : IDisposable
{
    /// <summary>How long tests may take that are tried with a mutant: this many seconds, and this many times as long as without it.</summary>
    private const double LeastTime = 5, MostTimes = 5;

    private readonly TestHost _host;
    private readonly string _keys;
    private readonly Dictionary<int, ITestCase> _cases = [];
    private string[]? _lines;
    private bool _isUsed;

    /// <param name="tests">The assembly of the tests.</param>
    /// <param name="library">The mutated library.</param>
    /// <param name="count">How many mutants there are.</param>
    /// <param name="keys">The file that tells tests from one another: what <c>find</c> writes.</param>
    private Judge(string tests, string library, int count, string keys)
    {
        Mutant.Prepare(count);
        _host = new TestHost(tests, library);
        _keys = keys;
    }

    /// <summary>Answers until nothing more is asked.</summary>
    public static void Run(string[] words)
    {
        using var answers = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false)) { AutoFlush = true };
        using var questions = new StreamReader(Console.OpenStandardInput(), new UTF8Encoding(false));
        // What tests print is nobody's.
        Console.SetOut(TextWriter.Null);
        Console.SetError(TextWriter.Null);
        using var judge = new Judge(words[0], words[1], int.Parse(words[2], CultureInfo.InvariantCulture), words[3]);
        while (questions.ReadLine() is { } question)
        {
            answers.WriteLine(judge.Answer(question.Split(' ')));
            if (judge.IsStuck) Environment.Exit(0);
        }
    }

    /// <summary>Whether a test runs on that nothing could stop.</summary>
    private bool IsStuck { get; set; }

    public void Dispose() => _host.Dispose();

    private string Answer(string[] question) => question switch
    {
        ["find"] => Find(),
        ["reach", var test] => Reach(int.Parse(test, CultureInfo.InvariantCulture)),
        ["try", var mutant, var tests] => Try(int.Parse(mutant, CultureInfo.InvariantCulture), [.. tests.Split(',').Select(Timed)]),
        _ => "what?",
    };

    private string Find()
    {
        var found = _host.Discover();
        File.WriteAllLines(_keys, found.Select(test => $"{test.Class}\t{OneLine(test.Name)}\t{test.Key}"));
        return string.Join(',', Mutant.TakeReached());
    }

    private string Reach(int test)
    {
        Mutant.TakeReached();
        var begun = Stopwatch.GetTimestamp();
        var (failed, isFinished) = _host.Run([Case(test)], 600);
        IsStuck = !isFinished;
        var milliseconds = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
        var reached = string.Join(',', Mutant.TakeReached());
        return string.Create(CultureInfo.InvariantCulture, $"{(failed is null ? "passed" : "failed")} {milliseconds:0} {reached}");
    }

    /// <summary>
    /// <c>survived</c>, <c>noticed</c> and the test that does, <c>late</c> where one took too long, or <c>spoilt</c>: the test fails without the mutant,
    /// too, since one that was tried before has left something behind.
    /// </summary>
    private string Try(int mutant, IReadOnlyList<(int Test, double Milliseconds)> tests)
    {
        var isFresh = !_isUsed;
        _isUsed = true;
        for (int next = 0, size = 1; next < tests.Count; next += size, size *= 2)
        {
            var batch = tests.Skip(next).Take(size).ToList();
            var cases = batch.Select(test => Case(test.Test)).ToList();
            Mutant.Chosen = mutant;
            var (failed, isFinished) = _host.Run(cases, LeastTime + (MostTimes * batch.Sum(test => test.Milliseconds) / 1000));
            Mutant.Chosen = Mutant.None;
            IsStuck = !isFinished;
            if (IsStuck) return "late";
            if (failed is null) continue;
            var judge = batch[Math.Max(0, cases.FindIndex(test => test.UniqueID == failed))];
            return !isFresh && FailsWithout(judge) ? "spoilt" : FormattableString.Invariant($"noticed {judge.Test}");
        }

        return "survived";
    }

    private bool FailsWithout((int Test, double Milliseconds) test)
    {
        var (failed, isFinished) = _host.Run([Case(test.Test)], LeastTime + (MostTimes * test.Milliseconds / 1000));
        IsStuck = !isFinished;
        return failed is not null;
    }

    private ITestCase Case(int test)
    {
        if (_cases.TryGetValue(test, out var known)) return known;
        _lines ??= File.ReadAllLines(_keys);
        return _cases[test] = _host.Find(_lines[test].Split('\t')[2]);
    }

    private static (int Test, double Milliseconds) Timed(string word)
    {
        var at = word.IndexOf(':', StringComparison.Ordinal);
        return (int.Parse(word.AsSpan(0, at), CultureInfo.InvariantCulture), double.Parse(word.AsSpan(at + 1), CultureInfo.InvariantCulture));
    }

    private static string OneLine(string name) => new([.. name.Select(letter => char.IsControl(letter) ? ' ' : letter)]);
}
