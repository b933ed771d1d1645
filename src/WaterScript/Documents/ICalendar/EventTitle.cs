using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>The title of events, from a template such as <c>{site}: {label}</c>.</summary>
/// <param name="site">The site.</param>
/// <param name="template">The template; what stands for something is one of <see cref="Words"/> between braces.</param>
internal sealed class EventTitle(Site site, string template)
{
    /// <summary>The template that holds without another.</summary>
    public const string Default = "{site}: {label}";

    /// <summary>What may stand between braces: the label of the site, the label of the schedule, its name, and the zones watered.</summary>
    public static readonly string[] Words = ["site", "label", "name", "zones"];

    /// <summary>The first thing between braces in a template that is not one of <see cref="Words"/>; null where there is none.</summary>
    public static string? UnknownIn(string template)
    {
        for (var open = template.IndexOf('{', StringComparison.Ordinal); open >= 0; open = template.IndexOf('{', open + 1))
        {
            var close = template.IndexOf('}', open);
            var word = close < 0 ? template[(open + 1)..] : template[(open + 1)..close];
            if (close < 0 || !Words.Contains(word)) return word;
        }

        return null;
    }

    /// <summary>The title of an event; never blank.</summary>
    public string Of(Schedule schedule, EventContent content)
    {
        var label = EventContent.NameOf(schedule.Label, schedule.IsExtra ? "Extra watering" : schedule.Name);
        var title = Filled(word => word switch
        {
            "site" => EventContent.NameOf(site.Label, site.Name),
            "label" => label,
            "name" => schedule.Name,
            _ => string.Join(", ", content.Zones),
        });
        return string.IsNullOrWhiteSpace(title) ? label : title;
    }

    /// <summary>What is filled in is not looked at again: a label with braces stays as it is.</summary>
    private string Filled(Func<string, string> textOf)
    {
        var parts = new List<string>();
        var rest = template;
        while (rest.IndexOf('{', StringComparison.Ordinal) is >= 0 and var open && rest.IndexOf('}', open) is > 0 and var close)
        {
            parts.Add(rest[..open]);
            parts.Add(textOf(rest[(open + 1)..close]));
            rest = rest[(close + 1)..];
        }

        parts.Add(rest);
        return string.Concat(parts);
    }
}
