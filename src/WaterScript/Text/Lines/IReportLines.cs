namespace WaterScript.Text.Lines;

/// <summary>
/// Takes the lines of a report, whatever form it has. Each call is one line, so no text that it is given can begin another;
/// and no text is taken for anything but itself.
/// </summary>
internal interface IReportLines
{
    /// <summary>The line that says what the report is about.</summary>
    void Heading(string words);

    /// <summary>A line that stands alone.</summary>
    void Sentence(string words);

    /// <summary>A title with its items below it; nothing where there are none.</summary>
    void Part(string title, IEnumerable<string> items);
}
