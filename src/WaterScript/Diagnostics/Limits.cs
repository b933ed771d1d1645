namespace WaterScript.Diagnostics;

/// <summary>What the compiler refuses to go beyond, so that every input ends soon and with words. Each is reported as <c>over-limit</c>.</summary>
internal static class Limits
{
    /// <summary>Braces inside braces.</summary>
    public const int NestingDepth = 40;

    /// <summary>UTF-16 code units of one file.</summary>
    public const int FileLength = 8_000_000;

    /// <summary>Errors of one file that are reported; the last of them says that there are more.</summary>
    public const int ErrorsPerFile = 100;

    /// <summary>Included files of a site.</summary>
    public const int Includes = 500;

    /// <summary>Runs and pauses of one pass of a schedule.</summary>
    public const int RunsPerPass = 100_000;

    /// <summary>Passes of one schedule that belong to one date.</summary>
    public const int PassesPerDay = 20_000;

    /// <summary>Days that a pass, or all passes of a date, may go on.</summary>
    public const int PassDays = 366;

    /// <summary>Sequences, groups, lets, supplies or schedules that each rest on the next.</summary>
    public const int NameDepth = 40;

    /// <summary>Days of one timetable: a hundred years.</summary>
    public const int HorizonDays = 36_525;

    /// <summary>Events of a calendar that stand alone: calendar apps take 2 to 7 ms for each, more for every later change.</summary>
    public const int FlatEvents = 20_000;

    /// <summary>Events that stand alone after which a person is warned that calendar apps will be slow.</summary>
    public const int FlatEventsWithoutNote = 2_000;

    /// <summary>Work of checking what a site does, in units of about ten nanoseconds, whatever its length.</summary>
    public const long CheckWork = 25_000_000;

    /// <summary>
    /// The work that each character of a site's files allows in addition: a large estate is checked in full, a small file cannot ask for much.
    /// </summary>
    public const long CheckWorkPerCharacter = 200;

    /// <summary>Passes of a site that are held while they wait for their turn, where work is counted.</summary>
    public const int PassesHeld = 300_000;

    /// <summary>Switchings that are held while a stagger delays them, where work is counted.</summary>
    public const int SwitchingsHeld = 100_000;

    /// <summary>Zones in all lists of a site's steps and sets together, each as often as it is named.</summary>
    public const int ZonesInLists = 500_000;

    /// <summary>Findings of one rule that are shown of what a site does; the last of them says how many more there are.</summary>
    public const int FindingsPerRule = 100;

    /// <summary>Findings of all rules that are shown of what a site does.</summary>
    public const int FindingsPerSite = 500;

    /// <summary>The work of checking what a site does.</summary>
    /// <param name="characters">The length of its files.</param>
    public static long CheckWorkOf(long characters) => CheckWork + (CheckWorkPerCharacter * characters);

    /// <summary>Dates of schedules that are compared beyond the horizon of a check; what is left then is decided within it only.</summary>
    public const int ProofWork = 3_000_000;

    /// <summary>Runs that are calculated again in search of a better start for what is found; beyond them none is proposed.</summary>
    public const int TrialRuns = 200_000;

    /// <summary>Times that the fixes of a site are applied and the site is looked at again; what is left then is left.</summary>
    public const int FixRounds = 20;

    /// <summary>Work of trying what findings propose, in units of about ten nanoseconds; what is left then is proposed in words only.</summary>
    public const long FixTrialWork = 25_000_000;

    /// <summary>Checks, of sites as large as one may be, that finding out which fixes do no harm may take; what is left then is left.</summary>
    public const int FixChecks = 4;

    /// <summary>Days of one chart.</summary>
    public const int ChartDays = 31;

    /// <summary>Runs of one chart: a browser draws so many within some seconds.</summary>
    public const int ChartRuns = 20_000;

    /// <summary>Corners of the curves of one chart; of more it has only the curves that go beyond their limit.</summary>
    public const int ChartPoints = 40_000;

    /// <summary>Runs of the weeks that a page of a change holds; the weeks after them are not in it.</summary>
    public const int ChangedRuns = 60_000;

    /// <summary>Runs of a year whose nights a picture of it holds as well; of more it shows the days only.</summary>
    public const int YearRuns = 100_000;

    /// <summary>Rows of those nights, watered and held: passes that repeat alike are one.</summary>
    public const int YearRows = 15_000;

    /// <summary>Corners of the curves of those nights, what repeats counted once; of more they have only the curves that go beyond their limit.</summary>
    public const int YearPoints = 40_000;

    /// <summary>Single waterings that a hold, a closed season or a cut takes in a timetable, and in the report of a check; their sums are whole.</summary>
    public const int TakenRuns = 5_000;

    /// <summary>Dates of a timetable, and of the report of a check, with their sunrise and sunset.</summary>
    public const int SunDays = 1_100;

    /// <summary>Work that <c>audit</c> and <c>diff</c> may do for each row of a log, or of a deployed timetable, beside that of a check.</summary>
    public const int WorkPerRow = 200;

    /// <summary>Runs, openings and switchings of a deployed timetable, together.</summary>
    public const int DeployedRows = 12_000_000;

    /// <summary>Values of the description in a deployed timetable: those of 10,000 zones with all that they can have.</summary>
    public const int DeployedValues = 200_000;

    /// <summary>UTF-16 code units of the description in a deployed timetable, which is held.</summary>
    public const int DeployedDescription = 8_000_000;

    /// <summary>Larger numbers mean nothing in a garden, and would overflow further on.</summary>
    public const decimal MostNumber = 1_000_000_000_000;

    /// <summary>The least number above zero: nothing is measured more finely here, and a quotient of two numbers never overflows.</summary>
    public const decimal LeastNumber = 0.000_001m;

    /// <summary>The longest length of time, in seconds: a hundred years.</summary>
    public const decimal MostSeconds = 3_155_760_000;
}
