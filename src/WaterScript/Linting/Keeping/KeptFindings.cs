using System.Collections.Immutable;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Keeping;

/// <summary>Findings as bytes, and back: without the single times at which they happen, which pictures show and no report does.</summary>
/// <param name="reading">What they were found in.</param>
internal sealed class KeptFindings(SiteReading reading)
{
    private readonly ImmutableArray<SourceText> _sources = [.. reading.Files.Select(file => file.Source)];

    /// <summary>Writes a finding.</summary>
    /// <exception cref="InvalidOperationException">It speaks of a place in a file that was not read.</exception>
    public void Write(KeptBytes bytes, Finding finding)
    {
        bytes.Add(finding.Rule.Slug);
        bytes.Add(finding.Heading);
        Write(bytes, finding.Primary);
        bytes.Add((int)finding.Severity);
        bytes.Add(finding.Others, label => Write(bytes, label));
        bytes.Add(finding.Happens is not null);
        if (finding.Happens is { } happens) Write(bytes, happens);
        bytes.Add(finding.Excess is not null);
        if (finding.Excess is { } excess) bytes.Add(excess);
        bytes.Add(finding.InPass);
        bytes.Add(finding.Details);
        bytes.Add(finding.Assumed);
        bytes.Add(finding.Help);
        Write(bytes, finding.Fix);
        Write(bytes, finding.OtherFix);
    }

    /// <summary>Reads a finding.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    /// <exception cref="ArgumentException">There is none.</exception>
    public Finding Read(KeptReader bytes) => new(RuleCatalogue.Find(bytes.Text()) ?? throw new InvalidDataException(), bytes.Text(), ReadLabel(bytes))
    {
        Severity = (Severity)bytes.Number((int)Severity.Advice, (int)Severity.Error),
        Others = bytes.All(() => ReadLabel(bytes)),
        Happens = bytes.YesOrNo() ? ReadOccurrences(bytes) : null,
        Excess = bytes.YesOrNo() ? bytes.Decimal() : null,
        InPass = bytes.Text(),
        Details = bytes.Text(),
        Assumed = bytes.Text(),
        Help = bytes.Text(),
        Fix = ReadFix(bytes),
        OtherFix = ReadFix(bytes),
    };

    private void Write(KeptBytes bytes, Label label)
    {
        Write(bytes, label.Location);
        bytes.Add(label.Text);
    }

    private Label ReadLabel(KeptReader bytes) => new(ReadLocation(bytes), bytes.Text());

    private void Write(KeptBytes bytes, Location location)
    {
        var index = _sources.IndexOf(location.Source);
        if (index < 0) throw new InvalidOperationException();
        bytes.Add(index);
        bytes.Add(location.Span.Start);
        bytes.Add(location.Span.Length);
    }

    private Location ReadLocation(KeptReader bytes)
    {
        var source = _sources[bytes.Number(0, _sources.Length - 1)];
        var start = bytes.Number(0, source.Text.Length);
        return new Location(source, new TextSpan(start, bytes.Number(0, source.Text.Length - start)));
    }

    private void Write(KeptBytes bytes, Fix? fix)
    {
        bytes.Add(fix is not null);
        if (fix is null) return;
        bytes.Add(fix.Title);
        bytes.Add(fix.IsSafe);
        bytes.Add(fix.Edits, edit =>
        {
            Write(bytes, edit.Location);
            bytes.Add(edit.Replacement);
        });
    }

    private Fix? ReadFix(KeptReader bytes) => bytes.YesOrNo()
        ? new Fix(bytes.Text(), bytes.YesOrNo(), bytes.All(() => new TextEdit(ReadLocation(bytes), bytes.Text())))
        : null;

    private static void Write(KeptBytes bytes, Occurrences happens)
    {
        bytes.Add(happens.First);
        bytes.Add(happens.Last);
        bytes.Add(happens.Times);
        bytes.Add(happens.Days);
        bytes.Add(happens.IsWholeDays);
        bytes.Add(happens.IsStill);
        bytes.Add(happens.Worst);
        bytes.Add((int)happens.Basis);
    }

    private static Occurrences ReadOccurrences(KeptReader bytes) => new(bytes.Moment(), bytes.Moment(), bytes.Number(), bytes.Number())
    {
        IsWholeDays = bytes.YesOrNo(),
        IsStill = bytes.YesOrNo(),
        Worst = bytes.Decimal(),
        Basis = (Basis)bytes.Number((int)Basis.Horizon, (int)Basis.ForEver),
    };
}
