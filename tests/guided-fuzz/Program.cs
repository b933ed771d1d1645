using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Stages;

// afl-fuzz writes an input to standard input; what gets through no stage counts as a crash.
SharpFuzz.Fuzzer.OutOfProcess.Run(stream =>
{
    using var bytes = new MemoryStream();
    stream.CopyTo(bytes);
    var site = SiteFiles.Of("guided", bytes.ToArray());
    if (AllStages.Run(new FuzzInput(site, site, Salt: 0, site.Name)) is { } failure) throw new InvalidOperationException(failure.Signature);
});
