namespace WaterScript.Tests;

/// <summary>What still stands in the way of the order of the stages. These lists only get shorter.</summary>
internal static class KnownDependencies
{
    /// <summary>Files that see a stage after their own.</summary>
    public static readonly string[] Upward = [
        "Simulation/Daylight.cs sees Linting/Engine/LintContext.cs",
        "Simulation/Electrical/CurrentDraw.cs sees Linting/Rules/Electrical/PowerLimit.cs",
        "Simulation/TimelineWalker.cs sees Linting/Engine/DayNotes.cs",
        "Simulation/TimelineWalker.cs sees Linting/Engine/LintContext.cs",
        "Simulation/Water/TankInflow.cs sees Linting/Engine/LintContext.cs",
        "Simulation/Water/TankLevel.cs sees Linting/Engine/LintContext.cs",
    ];

    /// <summary>More than three files that need one another.</summary>
    public static readonly string[] Circles = [
        "Documents/Charts/Chart.cs Documents/Charts/ChartBuilder.cs Documents/Charts/ChartCurve.cs Documents/Charts/ChartDay.cs" +
            " Documents/Charts/ChartFindings.cs Documents/Charts/ChartLane.cs Documents/Charts/ChartRecorder.cs Documents/Charts/ChartWords.cs" +
            " Documents/Charts/CurveLine.cs Documents/Charts/DayCurves.cs Documents/Charts/DaySky.cs Documents/Charts/Drawing/LaneItems.cs",
        "Linting/Engine/LintContext.cs Linting/Engine/OccurrenceCounter.cs Linting/Engine/PassMeetings.cs Linting/Proof/LaterMeeting.cs" +
            " Linting/Proof/SteadyStart.cs Linting/Proof/WholeCycle.cs Linting/Rules/Plants/DemandMet.cs Linting/Rules/Restrictions/Breach.cs" +
            " Linting/Rules/Restrictions/ForbiddenDay.cs Linting/Rules/Restrictions/NightTooShort.cs Linting/Rules/Restrictions/OutsideHours.cs" +
            " Linting/Rules/Restrictions/RestrictionJudge.cs Linting/Rules/Restrictions/RestrictionMonitor.cs" +
            " Linting/Rules/Restrictions/TooDeepADay.cs Linting/Rules/Restrictions/TooLongADay.cs Linting/Rules/Restrictions/TooManyDays.cs" +
            " Linting/Rules/Restrictions/ZonesAtATime.cs",
    ];

    /// <summary>Files of more than 400 lines.</summary>
    public static readonly string[] LongFiles = [
        "tests/WaterScript.Tests/Simulation/RandomSource.cs",
        "tests/WaterScript.Tests/Simulation/StrangersSitesTests.cs",
    ];
}
