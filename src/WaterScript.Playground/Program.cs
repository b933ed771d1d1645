using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using NodaTime;
using WaterScript.Calendars.TimeZones;
using WaterScript.Playground.Answers;

[assembly: SupportedOSPlatform("browser")]

namespace WaterScript.Playground;

/// <summary>The compiler as a script calls it: a question goes in, its answer comes out, one after the other.</summary>
internal static partial class Program
{
    private static readonly PageSession Session = new(SystemClock.Instance, PackagedTimeZones.Provider);

    private static void Main()
    {
        // The script calls what it needs.
    }

    [JSExport]
    internal static string Answer(string question) => Session.Answer(question);
}
