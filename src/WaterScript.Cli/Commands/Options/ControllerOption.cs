using WaterScript.Model;

namespace WaterScript.Cli.Commands.Options;

/// <summary>The option <c>--controller</c>.</summary>
internal static class ControllerOption
{
    /// <summary>The controller of a site that has a name; null where none is asked for.</summary>
    /// <exception cref="CommandException">There is none of that name.</exception>
    public static Controller? Of(Site site, string? name)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (name is null) return null;
        string[] names = [.. site.Controllers.Select(controller => controller.Name)];
        return site.Controllers.FirstOrDefault(controller => controller.Name == name)
            ?? throw new CommandException(UsageWords.NoSuch("controller", name, names));
    }
}
