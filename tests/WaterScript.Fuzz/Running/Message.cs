namespace WaterScript.Fuzz.Running;

/// <summary>First letters of the lines in which a worker says where it is. A tab stands between what follows.</summary>
internal static class Message
{
    /// <summary>It begins with an input: its number.</summary>
    public const char Begins = '>';

    /// <summary>What the stages had to do since the last such line.</summary>
    public const char Counts = '=';

    /// <summary>An input fails in a way not seen before and is being made smaller, which takes a while: its number, and how.</summary>
    public const char Shrinks = '?';

    /// <summary>An input fails: its number, how, and the case that was made of it.</summary>
    public const char Found = '!';

    /// <summary>An input fails as another did: its number, and how.</summary>
    public const char Again = '+';
}
