using NodaTime;
using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>What the rows of a log mean on a site: its zones by name, by label, or by output and controller, and its times.</summary>
internal sealed class LogDictionary
{
    /// <summary>A device whose clock is not set shows a date long before the site began.</summary>
    private const int YearsBefore = 2;

    /// <summary>Or one long after.</summary>
    public const int YearsAfter = 100;

    /// <summary>What stands for the controller where a row names none.</summary>
    private const int AnyController = -1;

    private readonly Dictionary<string, int> _zones = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _controllers = new(StringComparer.Ordinal);
    private readonly Dictionary<(int Controller, int Output), int> _outputs = [];

    private readonly Site _ofSite;
    private readonly Controller? _usual;

    /// <param name="site">The site.</param>
    /// <param name="usual">The controller that rows are of which name none; null where nobody says.</param>
    public LogDictionary(Site site, Controller? usual = null)
    {
        (_ofSite, _usual) = (site, usual);
        Times = new LogTimes(site);
        NotBefore = StartOf(site, site.Effective.PlusYears(-YearsBefore));
        var last = LocalDate.MaxIsoValue.PlusYears(-1);
        NotFrom = StartOf(site, site.Effective < last.PlusYears(-YearsAfter) ? site.Effective.PlusYears(YearsAfter) : last);
        NeedsNoController = site.Controllers.Length <= 1 || usual is not null;
        foreach (var controller in site.Controllers) _controllers.TryAdd(controller.Name, controller.Index);
        foreach (var zone in site.Zones)
        {
            var index = zone.IsHandWatered ? LogEvent.NoZone : zone.Index;
            _zones.TryAdd(zone.Name, index);
            if (zone.Label is { } label) _zones.TryAdd(label, index);
            if (zone.Controller is { } controller) Add(controller, zone.Output, index);
        }

        foreach (var device in site.Devices.SelectMany(device => device.ByOutput())) Add(device.Controller, device.Output, LogEvent.NoZone);
    }

    /// <summary>Reads times.</summary>
    public LogTimes Times { get; }

    /// <summary>The first moment that a row may be about, in Unix seconds.</summary>
    public long NotBefore { get; }

    /// <summary>The first moment that no row may be about any more, in Unix seconds.</summary>
    public long NotFrom { get; }

    /// <summary>Whether an output is known by its number alone.</summary>
    public bool NeedsNoController { get; }

    /// <summary>Index of the zone that has a name or a label, or <see cref="LogEvent.NoZone"/> for one that is watered by hand; null for none.</summary>
    public int? ZoneNamed(ReadOnlySpan<char> name) => _zones.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(name, out var zone) ? zone : null;

    /// <summary>Whether a controller is called so, or nobody has to say which.</summary>
    public bool IsController(ReadOnlySpan<char> name) => name.Length == 0 || _controllers.GetAlternateLookup<ReadOnlySpan<char>>().ContainsKey(name);

    /// <summary>Index of the zone that has an output, or <see cref="LogEvent.NoZone"/> where a device has it; null for none.</summary>
    /// <param name="controller">Its name; empty where the row names none.</param>
    /// <param name="output">The number.</param>
    public int? ZoneAt(ReadOnlySpan<char> controller, int output)
    {
        var index = _usual?.Index ?? AnyController;
        if (controller.Length > 0 && !_controllers.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(controller, out index)) return null;
        return _outputs.TryGetValue((index, output), out var zone) ? zone : null;
    }

    /// <summary>Index of the controller that a row is of: of its zone, of its own, or the usual one; <see cref="LogEvent.NoController"/> for none.</summary>
    public int ControllerOf(int zone, ReadOnlySpan<char> name)
    {
        if (zone >= 0) return _ofSite.Zones[zone].Controller!.Index;
        if (name.Length > 0 && _controllers.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(name, out var index)) return index;
        return _usual?.Index ?? LogEvent.NoController;
    }

    private static long StartOf(Site site, LocalDate date) => site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds();

    private void Add(Controller controller, int output, int zone)
    {
        _outputs.TryAdd((controller.Index, output), zone);
        _outputs.TryAdd((AnyController, output), zone);
    }
}
