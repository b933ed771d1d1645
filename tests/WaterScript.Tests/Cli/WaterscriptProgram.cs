using System.Runtime.ExceptionServices;
using System.Text;
using NodaTime;
using WaterScript.Cli;
using WaterScript.Cli.Files;

namespace WaterScript.Tests.Cli;

/// <summary>
/// Runs a command in a folder. Where <c>WATERSCRIPT_BINARY</c> names a program, as in CI, that is what runs. Otherwise the command runs inside the
/// tests, with a terminal and surroundings of its own, because starting the program takes longer than what most commands do.
/// </summary>
internal static class WaterscriptProgram
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Runs a command in a folder.</summary>
    public static WaterscriptProcess.Result Run(string folder, params string[] arguments) => Run(folder, [], [], arguments);

    /// <summary>Runs a command in a folder with some bytes on standard input and some variables of the environment.</summary>
    public static WaterscriptProcess.Result Run(string folder, byte[] input, (string Name, string Value)[] environment, params string[] arguments) =>
        WaterscriptProcess.IsNamed || arguments.Any(NamesTheProcess)
            ? WaterscriptProcess.Run(folder, input, environment, arguments)
            : OnItsThread(folder, () =>
                Inside(new Surroundings(RealPath.Of(folder, Surroundings.OfProcess()), Variables(environment), SystemClock.Instance), input, arguments));

    /// <summary>Help and the version name the process that prints them.</summary>
    private static bool NamesTheProcess(string word) => word is "--help" or "-h" or "-?" or "/h" or "/?" or "--version";

    private static Func<string, string?> Variables((string Name, string Value)[] more) =>
        name => more.Where(variable => variable.Name == name).Select(variable => variable.Value).FirstOrDefault() ?? Environment.GetEnvironmentVariable(name);

    private static WaterscriptProcess.Result Inside(Surroundings surroundings, byte[] input, string[] arguments)
    {
        using var output = new MemoryStream();
        using var error = new MemoryStream();
        using var text = new StreamWriter(output, Utf8) { NewLine = "\n" };
        using var errorText = new StreamWriter(error, Utf8) { NewLine = "\n", AutoFlush = true };
        var terminal = new Terminal(surroundings, () => new MemoryStream(input), output, text, errorText, textHasColour: false, errorHasColour: false);
        var code = CommandLine.Run(arguments, terminal);
        return new WaterscriptProcess.Result(Decoded(output), Decoded(error), code);
    }

    /// <summary>As a reader of a pipe decodes it, which takes a byte-order mark away.</summary>
    private static string Decoded(MemoryStream stream)
    {
        using var reader = new StreamReader(new MemoryStream(stream.ToArray()), Utf8);
        return reader.ReadToEnd();
    }

    /// <summary>A command that waits for somebody fails its test, as a process that does not end would.</summary>
    private static WaterscriptProcess.Result OnItsThread(string folder, Func<WaterscriptProcess.Result> run)
    {
        WaterscriptProcess.Result? result = null;
        ExceptionDispatchInfo? failure = null;
        var thread = new Thread(() =>
        {
            try
            {
                result = run();
            }
#pragma warning disable CA1031 // It is thrown again where the test sees it.
            catch (Exception problem)
#pragma warning restore CA1031
            {
                failure = ExceptionDispatchInfo.Capture(problem);
            }
        })
        {
            IsBackground = true,
        };
        thread.Start();
        if (!thread.Join(WaterscriptProcess.Patience)) throw new TimeoutException($"a command in {folder} does not end");
        failure?.Throw();
        return result!;
    }
}
