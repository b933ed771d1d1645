using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Deployed;

/// <summary>How a report says where a list comes from.</summary>
internal sealed class OriginWords(DeployedAnswer answer)
{
    private const int MostLetters = 72;
    private const int ShownDigits = 12;

    /// <summary>The file as it is, and the revision in which it stands so.</summary>
    public string OfFile => $"{answer.File} as it is" + (answer.OfFile switch
    {
        { Commit: { } commit } => ", " + Of(commit),
        { IsInRepository: true } => ", not committed",
        _ => "",
    });

    /// <summary>Where a list comes from, without a full stop.</summary>
    public string Of(TracedList list)
    {
        ArgumentNullException.ThrowIfNull(list);
        var origin = list.Origin;
        var unknown = origin.Unknown is { } name ? $"{Short(name)}, which this repository does not have; " : "";
        return unknown + origin switch
        {
            { IsFile: true } => OfFile,
            { Source: OriginSource.NotFound, WhyNot: { } why } => $"not known: {why}",
            { Source: OriginSource.NotFound, Searched: 0 } => "not known: no revision has the file" + Deepen(origin),
            { Source: OriginSource.NotFound, Commit: { } nearest } => $"{NoneOf(origin.Searched)}; nearest {Of(nearest)}, "
                + $"{(origin.Apart == 0 ? "with the same rows and other limits" : Rows(origin.Apart, list) + " apart")}{Deepen(origin)}",
            { Source: OriginSource.NotFound } => NoneOf(origin.Searched) + Deepen(origin),
            { First: { } first, Commit: { } last } => $"{first.Short} to {last.Short}, alike for these dates",
            { Commit: { } commit } => Of(commit),
            _ => "not known",
        };
    }

    private static string NoneOf(int searched) =>
        searched == 1 ? "the last revision does not give this list" : $"no revision of the last {searched} gives this list";

    private static string Rows(int count, TracedList list) => Phrases.Count(count, list.Comparison.List.Kind.ToString().ToLowerInvariant()[..^1]);

    /// <summary><c>111f713 "Herbs get less", Mon 20 Apr 2026</c></summary>
    private static string Of(Commit commit)
    {
        if (commit is not { Subject: { } written, Date: { } date }) return commit.Short;
        var subject = DisplayLine.CleanLine(written);
        return $"{commit.Short} \"{(subject.Length > MostLetters ? subject[..MostLetters] + "…" : subject)}\", {MomentWords.Date(date)}";
    }

    private static string Deepen(ListOrigin origin) => origin.IsShallow ? "; this checkout is shallow: git fetch --unshallow gets the others" : "";

    private static string Short(string name) => name[..Math.Min(ShownDigits, name.Length)];
}
