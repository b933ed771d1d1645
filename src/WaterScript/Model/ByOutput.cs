namespace WaterScript.Model;

/// <summary>One thing for each output of a device: by the device, and by the controller where several switch it.</summary>
/// <typeparam name="T">What is kept.</typeparam>
internal sealed class ByOutput<T>
{
    private readonly T[] _first;
    private readonly Dictionary<(int Device, int Controller), T> _further = [];

    /// <param name="site">The site.</param>
    /// <param name="make">Makes the thing of a device as one controller has it.</param>
    public ByOutput(Site site, Func<Device, T> make)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(make);
        _first = new T[site.Devices.Length];
        foreach (var device in site.Devices)
        {
            var isFirst = true;
            foreach (var wired in device.ByOutput())
            {
                if (isFirst) _first[device.Index] = make(wired);
                else _further[(device.Index, wired.Controller.Index)] = make(wired);
                isFirst = false;
            }
        }
    }

    /// <summary>That of an output, by the index of the device and of a controller; for a controller that does not switch it, that of the first.</summary>
    public T this[int device, int controller] =>
        _further.Count > 0 && _further.TryGetValue((device, controller), out var thing) ? thing : _first[device];
}
