using System.Globalization;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;

namespace WaterScript.Cli.Files;

/// <summary>A list that is deployed, in a file.</summary>
internal static class DeployedListFile
{
    /// <summary>Reads one.</summary>
    /// <exception cref="CommandException">It cannot be read, or is not as it was written: where, and what to do about it.</exception>
    public static DeployedList Read(string path, Terminal terminal) => Use(path, terminal, list => list);

    /// <summary>Reads one of a site.</summary>
    /// <exception cref="CommandException">The same, or it is not of this site.</exception>
    public static GivenList ReadFor(Site site, string path, Terminal terminal) =>
        Use(path, terminal, list => GivenList.Of(terminal.Surroundings.Shown(path), list, site));

    private static T Use<T>(string path, Terminal terminal, Func<DeployedList, T> work)
    {
        using var text = new StreamReader(RegularFile.OpenNamed(path, terminal.Surroundings));
        try
        {
            return work(DeployedList.Read(text.ReadToEnd()));
        }
        catch (DeployedException problem)
        {
            throw new CommandException(string.Create(
                CultureInfo.InvariantCulture, $"{terminal.Surroundings.Shown(path)}:{problem.Line}:{problem.Column}: {problem.Message}; {problem.Help}"));
        }
    }
}
