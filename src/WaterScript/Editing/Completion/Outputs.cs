
namespace WaterScript.Editing.Completion;

/// <summary>The outputs of controllers, and what is wired to them.</summary>
internal static class Outputs
{
    private const int Unknown = 8;

    /// <summary>Those that nothing is wired to, the lowest first.</summary>
    public static IEnumerable<int> Free(EditedSite site)
    {
        var taken = Taken(site);
        return Numbers(site).Where(number => !taken.ContainsKey(number));
    }

    /// <summary>What is wired to each.</summary>
    public static Dictionary<int, string> Taken(EditedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var taken = new Dictionary<int, string>();
        if (site.Site is not { } model || model.Controllers.Length > 1) return taken;
        foreach (var zone in model.Zones.Where(zone => zone.Output > 0)) taken.TryAdd(zone.Output, zone.Name);
        foreach (var device in model.Devices.Where(device => device.Output > 0)) taken.TryAdd(device.Output, device.Name);
        return taken;
    }

    /// <summary>All of the first controller.</summary>
    public static IEnumerable<int> Numbers(EditedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var most = site.Site is { Controllers: [{ Outputs: { } outputs }, ..] } ? (int)outputs : Unknown;
        return Enumerable.Range(1, Math.Min(most, 64));
    }
}
