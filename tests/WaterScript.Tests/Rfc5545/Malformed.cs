namespace WaterScript.Tests.Rfc5545;

/// <summary>A file is not what RFC 5545 allows.</summary>
/// <param name="line">The line that it was noticed on, unfolded or not, from 1; 0 for the whole file.</param>
/// <param name="message">What is wrong, with the section where it helps.</param>
internal sealed class Malformed(int line, string message) : Exception($"line {line}: {message}");
