using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;
using WaterScript.Fuzz.Inputs;

namespace WaterScript.Fuzz.Shrinking;

/// <summary>
/// Makes a failing input small while it fails in the same way: takes out files, then lines, then tokens, then letters, in ever smaller pieces
/// (delta debugging: Zeller, Hildebrandt, "Simplifying and isolating failure-inducing input", IEEE TSE 28, 2002).
/// </summary>
/// <param name="signatureOf">How an input fails; null where it does not.</param>
/// <param name="patience">How long to go on.</param>
internal sealed partial class Shrinker(Func<FuzzInput, string?> signatureOf, TimeSpan patience)
{
    private readonly Stopwatch _watch = Stopwatch.StartNew();

    /// <summary>The smallest that was found in time.</summary>
    public FuzzInput Shrink(FuzzInput input, string signature)
    {
        bool Fails(FuzzInput other) => signatureOf(other) == signature;
        var itself = input with { Original = input.Files };
        if (Fails(itself)) input = itself;
        foreach (var path in input.Files.Files.Keys.Where(path => path != input.Files.Root))
            input = Kept(input, WithFiles(input, input.Files with { Files = input.Files.Files.Remove(path) }), Fails);
        foreach (var pieces in (Func<string, List<string>>[])[Lines, Tokens, Letters])
        {
            foreach (var path in input.Files.Files.Keys)
            {
                // A text that is not UTF-8 is not the same when it is written back; then its bytes stay as they are.
                var text = input.Files.TextOf(path);
                if (!Encoding.UTF8.GetBytes(text).AsSpan().SequenceEqual(input.Files.Files[path])) continue;
                input = Smaller(input, path, pieces(text), Fails);
            }
        }

        return input;
    }

    private FuzzInput Smaller(FuzzInput input, string path, List<string> pieces, Func<FuzzInput, bool> fails)
    {
        for (var size = Math.Max(1, pieces.Count / 2); ; size = size > 1 ? size / 2 : 1)
        {
            var hasChanged = false;
            for (var at = 0; at < pieces.Count && _watch.Elapsed < patience;)
            {
                List<string> rest = [.. pieces[..at], .. pieces[Math.Min(pieces.Count, at + size)..]];
                var candidate = WithFiles(input, input.Files.With(path, string.Concat(rest)));
                if (!fails(candidate))
                {
                    at += size;
                    continue;
                }

                (input, pieces, hasChanged) = (candidate, rest, true);
            }

            if ((size == 1 && !hasChanged) || _watch.Elapsed >= patience) return input;
        }
    }

    /// <summary>Where the input is compared with itself, it stays so.</summary>
    private static FuzzInput WithFiles(FuzzInput input, SiteFiles files) =>
        input with { Files = files, Original = ReferenceEquals(input.Original, input.Files) ? files : input.Original };

    private static FuzzInput Kept(FuzzInput input, FuzzInput candidate, Func<FuzzInput, bool> fails) => fails(candidate) ? candidate : input;

    private static List<string> Lines(string text) => [.. Line().Matches(text).Select(match => match.Value)];

    private static List<string> Tokens(string text) => [.. Token().Matches(text).Select(match => match.Value)];

    private static List<string> Letters(string text) => [.. text.EnumerateRunes().Select(rune => rune.ToString())];

    [GeneratedRegex(@"[^\n]*\n|[^\n]+", RegexOptions.CultureInvariant)]
    private static partial Regex Line();

    [GeneratedRegex(@"[A-Za-z0-9_.-]+|\s+|.", RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex Token();
}
