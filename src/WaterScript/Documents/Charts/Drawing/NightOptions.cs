namespace WaterScript.Documents.Charts.Drawing;

/// <summary>What of a night is drawn.</summary>
/// <param name="HasHours">The hours, over the first of several nights.</param>
/// <param name="HasFoot">What is folded away and what the sun does, under the first of several.</param>
/// <param name="HasPanels">Devices, flow, level and power; without it only what goes beyond its limit.</param>
/// <param name="Thumb">Which part of it is in sight, from 0 to 1; null for all.</param>
internal sealed record NightOptions(bool HasHours, bool HasFoot, bool HasPanels, (double From, double Until)? Thumb = null);
