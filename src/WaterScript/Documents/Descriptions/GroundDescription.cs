using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Documents.Descriptions;

/// <summary>
/// The soils, the plants and the climate of a site. Those that are built in stand there where a zone has them, with the numbers that were calculated
/// with, so that a timetable says what it rests on.
/// </summary>
internal sealed class GroundDescription(Site site, DocumentWriter writer)
{
    /// <summary>Writes what there is.</summary>
    public void Write()
    {
        Soil[] soils = [.. site.Soils, .. site.Zones.Select(zone => zone.Soil).OfType<Soil>().Where(soil => soil.Origin is null).Distinct()];
        Plants[] plants = [.. site.Plants, .. site.Zones.Select(zone => zone.Plants).OfType<Plants>().Where(some => some.Origin is null).Distinct()];
        if (soils.Length > 0) writer.List("soils", soils, soil => writer.Map(() => WriteSoil(soil)));
        if (plants.Length > 0) writer.List("plants", plants, some => writer.Map(() => WritePlants(some)));
        if (site.Climate is not null) writer.Map("climate", WriteClimate);
    }

    private void WriteSoil(Soil soil)
    {
        writer.Entry("name", soil.Name);
        writer.Entry("label", soil.Label);
        writer.Entry(Schema.Soil.Intake, soil.Intake);
        writer.Entry(Schema.Soil.Holds, soil.Holds);
        if (!soil.Ponds.IsEmpty) writer.List(Schema.Soil.Ponds.Key, soil.Ponds, ponds => writer.Number(Measure.Rounded(ponds.InBase)!.Value), Layout.OneLine);
    }

    private void WritePlants(Plants plants)
    {
        writer.Entry("name", plants.Name);
        writer.Entry("label", plants.Label);
        if (!plants.Coefficients.IsEmpty) writer.Map(Schema.Plants.Coefficient.Key, () => WriteMonths(month => plants.Coefficients[month]), Layout.OneLine);
        writer.Entry(Schema.Plants.Roots, plants.Roots);
        writer.Entry(Schema.Plants.Depletion, plants.DepletionPercent);
    }

    private void WriteMonths(Func<int, decimal?> value)
    {
        for (var month = 0; month < MonthNames.All.Length; month++) writer.Entry(MonthNames.All[month], Measure.Rounded(value(month)));
    }

    private void WriteClimate()
    {
        for (var month = 0; month < Schema.Climate.Months.Length; month++)
        {
            if (site.Climate!.Months[month] is { } given) writer.Map(Schema.Climate.Months[month].Key, () => WriteMonth(given), Layout.OneLine);
        }

        writer.Entry(Schema.Climate.Coast, site.Climate!.IsByTheSea);
    }

    private void WriteMonth(ClimateMonth month)
    {
        writer.Entry("coldest_c", Base(month.Coldest));
        writer.Entry("warmest_c", Base(month.Warmest));
        writer.Entry("et_mm_per_day", Measure.Rounded(24 * month.Et?.InBase));
        writer.Entry("rain_mm", Base(month.Rain));
        writer.Entry("humidity_least_percent", Measure.Rounded(month.HumidityLeast));
        writer.Entry("humidity_greatest_percent", Measure.Rounded(month.HumidityGreatest));
        writer.Entry("wind_m_per_s", Base(month.Wind));
        writer.Entry("wind_height_m", Base(month.WindHeight));
        writer.Entry("sun_h_per_day", Base(month.Sun));
    }

    private static decimal? Base(Quantity? quantity) => Measure.Rounded(quantity?.InBase);
}
