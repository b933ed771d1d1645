using WaterScript.Binding;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Timetables;

namespace WaterScript.Linting.Keeping;

/// <summary>
/// What a check found, as bytes, for the same site another time. The site itself is read anew; places are kept as a file's place among those that were read
/// and a span in it.
/// </summary>
internal static class KeptCheck
{
    /// <summary>The bytes of a check; null where it cannot be kept.</summary>
    public static byte[]? Write(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site is not { Lint: { } lint, Reading.Site: { } model } || MayReadOtherFiles(site)) return null;
        var bytes = new KeptBytes();
        var findings = new KeptFindings(site.Reading);
        try
        {
            bytes.Add(site.Findings, finding => findings.Write(bytes, finding));
            bytes.Add(lint.Accepted, accepted => Write(bytes, findings, accepted, model));
        }
        catch (InvalidOperationException)
        {
            return null; // A place in none of the files.
        }

        bytes.Add(lint.NotChecked, gap => Write(bytes, gap));
        bytes.Add(lint.Horizon.From);
        bytes.Add(lint.Horizon.Until);
        bytes.Add(lint.ConflictProof is not null);
        if (lint.ConflictProof is { } proof) Write(bytes, proof);
        bytes.Add(lint.Collisions);
        bytes.Add(lint.IsCut);
        bytes.Add(lint.Runs);
        bytes.Add(lint.Work);
        return bytes.ToArray();
    }

    /// <summary>The check that such bytes are of; null where they are not bytes of a check of this site.</summary>
    /// <param name="kept">What <see cref="Write(CheckedSite)"/> wrote, or anything else.</param>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading the site gave.</param>
    public static CheckedSite? Read(ReadOnlyMemory<byte> kept, string path, SiteReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var bytes = new KeptReader(kept);
        var findings = new KeptFindings(reading);
        try
        {
            var found = bytes.All(() => findings.Read(bytes));
            var accepted = bytes.All(() => new AcceptedFinding(
                findings.Read(bytes), reading.Site!.Acceptances[bytes.Number(0, reading.Site.Acceptances.Length - 1)]));
            var gaps = bytes.All(() => ReadGap(bytes));
            // What was found stands with the site, with what was tried of it.
            var lint = new LintReport(new Horizon(bytes.Date(), bytes.Date()), [], accepted, gaps)
            {
                ConflictProof = bytes.YesOrNo() ? ReadProof(bytes) : null,
                Collisions = bytes.Number(0, int.MaxValue),
                IsCut = bytes.YesOrNo(),
                Runs = bytes.Number(),
                Work = bytes.Number(),
            };
            return bytes.IsAtEnd ? new CheckedSite(path, reading, lint) { Findings = found } : null;
        }
        catch (Exception problem) when (problem is InvalidDataException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>
    /// Whether a proposal was perhaps tried that reads a file which is none of the site's: one for an include. What that file holds is not in the key.
    /// </summary>
    private static bool MayReadOtherFiles(CheckedSite site) => site.Reading.Files.Any(file => file.Statements.OfType<IncludeNode>().Any(include =>
        site.Findings.Any(finding => finding.Primary.Location.Source == file.Source
            && finding.Primary.Location.Span.Start <= include.Span.End && include.Span.Start <= finding.Primary.Location.Span.End)));

    private static void Write(KeptBytes bytes, KeptFindings findings, AcceptedFinding accepted, Site site)
    {
        findings.Write(bytes, accepted.Finding);
        var index = site.Acceptances.IndexOf(accepted.Acceptance);
        if (index < 0) throw new InvalidOperationException();
        bytes.Add(index);
    }

    private static void Write(KeptBytes bytes, Gap gap)
    {
        bytes.Add((int)gap.Concern);
        bytes.Add(gap.What);
        bytes.Add(gap.Of, thing =>
        {
            bytes.Add(thing.Kind);
            bytes.Add(thing.Name);
        });
        bytes.Add(gap.Add);
        bytes.Add(gap.Because);
    }

    private static Gap ReadGap(KeptReader bytes) => new(
        (Concern)bytes.Number(0, (int)Concern.Daylight), bytes.Text(), bytes.All(() => new Thing(bytes.Text(), bytes.Text())), bytes.Text())
    {
        Because = bytes.Text(),
    };

    private static void Write(KeptBytes bytes, ConflictProof proof)
    {
        bytes.Add(proof.Until);
        bytes.Add(proof.Moving, bytes.Add);
        bytes.Add(proof.IsWhole);
        bytes.Add(proof.IsForEver);
        bytes.Add(proof.Pairs is not null);
        if (proof.Pairs is not { } pairs) return;
        bytes.Add(pairs.All);
        bytes.Add(pairs.NotProved);
    }

    private static ConflictProof ReadProof(KeptReader bytes) => new(bytes.Date(), bytes.All(bytes.Text), bytes.YesOrNo())
    {
        IsForEver = bytes.YesOrNo(),
        Pairs = bytes.YesOrNo() ? (bytes.Number(0, int.MaxValue), bytes.Number(0, int.MaxValue)) : null,
    };
}
