using FsCheck;
using Xunit;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>However zones and pumps are wired, each output with several users is found, and each output that is not there.</summary>
public sealed class OutputConflictTests
{
    private const int Outputs = 4;

    [SampledProperty(300)]
    public void Outputs_that_are_shared_or_missing_are_found(NonEmptyArray<byte> bytes)
    {
        var wires = bytes.Get.Take(9).Select(each => (Controller: each % 2, Output: 1 + (each / 2 % (Outputs + 2)))).ToList();
        var text = string.Join('\n', wires.Select(UserOf)
            .Prepend($"site plot {{ timezone UTC; effective 2026-03-01 }}\ncontroller c0 {{ outputs {Outputs} }}\ncontroller c1 {{ outputs {Outputs} }}"))
            + "\n";
        var findings = Lint.Of(text).Findings;
        var shared = findings.Where(finding => finding.Rule.Slug == "output-shared").Select(finding => finding.Primary.Location.Start.Line);
        var missing = findings.Where(finding => finding.Rule.Slug == "no-such-output").Select(finding => finding.Primary.Location.Start.Line);

        // Each user after the first is reported of, at its own line; the users begin in the fourth.
        Assert.Equal(wires.Index().Where(wire => wires.IndexOf(wire.Item) < wire.Index).Select(wire => wire.Index + 4), shared.Order());
        Assert.Equal(wires.Index().Where(wire => wire.Item.Output > Outputs).Select(wire => wire.Index + 4), missing.Order());
    }

    private static string UserOf((int Controller, int Output) wire, int index) => index == 1
        ? $"pump u1 {{ output {wire.Output} of c{wire.Controller}; zones u0; load 60 mA }}"
        : $"zone u{index} {{ output {wire.Output} of c{wire.Controller} }}";
}
