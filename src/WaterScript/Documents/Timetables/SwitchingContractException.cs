namespace WaterScript.Documents.Timetables;

/// <summary>A list of switchings would break the contract with the device that carries it out, so it is not written to its end.</summary>
/// <param name="message">How, as a sentence for people without a full stop.</param>
internal sealed class SwitchingContractException(string message) : Exception(message);
