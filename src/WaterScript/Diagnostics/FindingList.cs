using System.Collections;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>
/// The findings of a run, in the order in which they are added. Of one file no more than <see cref="Limits.ErrorsPerFile"/>
/// errors are kept, the last of which says that there are more; warnings and advice are all kept.
/// </summary>
internal sealed class FindingList : IReadOnlyList<Finding>
{
    private readonly List<Finding> _findings = [];
    private readonly Dictionary<SourceText, int> _errors = [];
    private readonly Dictionary<SourceText, Finding> _tooMany = [];

    /// <inheritdoc/>
    public int Count => _findings.Count;

    /// <summary>Whether one of them is an error.</summary>
    public bool HasErrors => _errors.Count > 0;

    /// <inheritdoc/>
    public Finding this[int index] => _findings[index];

    /// <summary>Whether a file has had so many errors that no more of them are kept.</summary>
    public bool IsFull(SourceText source) => _errors.GetValueOrDefault(source) >= Limits.ErrorsPerFile;

    /// <summary>Adds one.</summary>
    public void Add(Finding finding)
    {
        var location = finding.Primary.Location;
        if (finding.Severity != Severity.Error)
        {
            _findings.Add(finding);
        }
        else if (!IsFull(location.Source))
        {
            _errors[location.Source] = _errors.GetValueOrDefault(location.Source) + 1;
            if (IsFull(location.Source)) _tooMany[location.Source] = finding = TooMany(location);
            _findings.Add(finding);
        }
    }

    /// <summary>Puts them in the order of their places; that a file has more comes after all others of it.</summary>
    /// <param name="files">The files, in their order.</param>
    public void Sort(IReadOnlyList<SourceText> files)
    {
        if (_findings.Count < 2) return;
        var ranks = files.Select((file, index) => (file, index)).ToDictionary(pair => pair.file, pair => pair.index);
        Finding[] sorted =
        [
            .. _findings.OrderBy(finding => ranks[finding.Primary.Location.Source])
                .ThenBy(finding => ReferenceEquals(finding, _tooMany.GetValueOrDefault(finding.Primary.Location.Source)))
                .ThenBy(finding => finding.Primary.Location.Span.Start),
        ];
        _findings.Clear();
        _findings.AddRange(sorted);
    }

    /// <summary>Adds several.</summary>
    public void AddRange(IEnumerable<Finding> findings)
    {
        foreach (var finding in findings) Add(finding);
    }

    /// <inheritdoc/>
    public IEnumerator<Finding> GetEnumerator() => _findings.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    private static Finding TooMany(Location location) =>
        Finding.At(ReadingRules.OverLimit, location, $"{Limits.ErrorsPerFile} errors in this file, and more") with
        {
            Help = "Correct the others first, then check again.",
        };
}
