using WaterScript.Model;

namespace WaterScript.Linting.Engine;

/// <summary>A part of a site, as its file names it.</summary>
/// <param name="Kind">The word that begins its block.</param>
/// <param name="Name">Its name.</param>
internal readonly record struct Thing(string Kind, string Name)
{
    /// <summary>A zone.</summary>
    public static Thing Of(Zone zone) => new("zone", zone.Name);

    /// <summary>A supply.</summary>
    public static Thing Of(Supply supply) => new("supply", supply.Name);

    /// <summary>A controller.</summary>
    public static Thing Of(Controller controller) => new("controller", controller.Name);

    /// <summary>A kind of valve.</summary>
    public static Thing Of(Valve valve) => new("valve", valve.Name);

    /// <summary>A restriction.</summary>
    public static Thing Of(Restriction restriction) => new("restriction", restriction.Name);

    /// <summary>A pump, a master valve or an injector.</summary>
    public static Thing Of(Device device) => new(device.Word, device.Name);

    /// <summary>What is wired to an output.</summary>
    public static Thing Of(WiredOutput wired) => wired.Zone is { } zone ? Of(zone) : Of(wired.Device!);
}
