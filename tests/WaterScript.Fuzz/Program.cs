using System.Globalization;
using System.Text;
using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Running;
using WaterScript.Fuzz.Stages;

Options options;
try
{
    options = Options.Read(args);
}
catch (Exception problem) when (problem is FormatException or OverflowException)
{
    Console.Error.WriteLine($"{problem.Message}\n\n{Options.Usage}");
    return 2;
}

if (options.Worker is not null)
{
    new Worker(options).Run();
    return 0;
}

if (options.Input is { } index) return Show([new InputMaker(Corpus.Read(), options.Seed).Make(index)]);
if (options.Case is { } path) return Show(CaseFolder.InputsOf(CaseFolder.ReadOne(path)));
using var output = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false)) { AutoFlush = true };
return new Supervisor(options, output).Run() ? 0 : 1;

static int Show(IEnumerable<FuzzInput> inputs)
{
    var failed = false;
    foreach (var input in inputs)
    {
        if (input.Salt == 0 || input.Recipe != input.Files.Name)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{input.Recipe}; salt {input.Salt}"));
            foreach (var (path, bytes) in input.Files.Files) Console.WriteLine($"--- {path}\n{Encoding.UTF8.GetString(bytes)}");
        }

        var counts = new StageCounts();
        var failure = AllStages.Run(input, counts);
        Console.Write(counts.ToTable());
        failed |= failure is not null;
        if (failure is not null) Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"--- salt {input.Salt} fails in {failure.Signature}\n{failure.Details}"));
    }

    Console.WriteLine(failed ? "fails" : "passes");
    return failed ? 1 : 0;
}
