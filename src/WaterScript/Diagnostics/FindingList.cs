using System.Collections;

namespace WaterScript.Diagnostics;

/// <summary>The findings of a run, in the order in which they are added.</summary>
public sealed class FindingList : IReadOnlyList<Finding>
{
    private readonly List<Finding> _findings = [];

    /// <inheritdoc/>
    public int Count => _findings.Count;

    /// <summary>Whether one of them is an error.</summary>
    public bool HasErrors => _findings.Exists(finding => finding.Severity == Severity.Error);

    /// <inheritdoc/>
    public Finding this[int index] => _findings[index];

    /// <summary>Adds one.</summary>
    public void Add(Finding finding) => _findings.Add(finding);

    /// <summary>Adds several.</summary>
    public void AddRange(IEnumerable<Finding> findings) => _findings.AddRange(findings);

    /// <inheritdoc/>
    public IEnumerator<Finding> GetEnumerator() => _findings.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
