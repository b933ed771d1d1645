namespace WaterScript.Answers.Audit.Water;

/// <summary>Water that was metered while nothing was open.</summary>
/// <param name="Since">The last moment by which there was none of it, in Unix seconds.</param>
/// <param name="Until">When it was read last.</param>
/// <param name="Litres">How much.</param>
/// <param name="First">The row that shows it first.</param>
/// <param name="Last">The row that shows it last.</param>
internal sealed record WaterLeak(long Since, long Until, decimal Litres, LogPlace First, LogPlace Last);
