using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Where the property of a thing is written; its name where it is not.</summary>
internal static class WrittenProperties
{
    public static Location PlaceOf(this Supply supply, Property property) => supply.Lines.Of(property.Name) ?? supply.Origin;

    public static Location? PlaceOf(this Controller controller, Property property) => controller.Lines.Of(property.Name) ?? controller.Origin;

    public static Location PlaceOf(this Power power, Property property) => power.Lines.Of(property.Name) ?? power.Origin;

    public static Location PlaceOf(this Valve valve, Property property) => valve.Lines.Of(property.Name) ?? valve.Origin;

    public static Location PlaceOf(this Device device, Property property) => device.Lines.Of(property.Name) ?? device.Origin;

    public static Location PlaceOf(this Zone zone, Property property) => zone.Lines.Of(property.Name) ?? zone.Origin;
}
