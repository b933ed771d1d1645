using System.Globalization;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Language;

/// <summary>
/// A value that was read from a file, and the statement that gives it, so that whatever is said of the value later can point there.
/// What is not written has no place: such a member is null, and where a default holds another member gives what holds.
/// </summary>
/// <typeparam name="T">Type of the value.</typeparam>
/// <param name="Value">The value.</param>
/// <param name="Place">The whole statement.</param>
internal readonly record struct Placed<T>(T Value, Location Place)
    where T : struct
{
    /// <summary>The value alone.</summary>
    public static implicit operator T(Placed<T> placed) => placed.Value;

    /// <summary>Whether both say the same, wherever they stand.</summary>
    public bool Equals(Placed<T> other) => EqualityComparer<T>.Default.Equals(Value, other.Value);

    /// <inheritdoc/>
    public override int GetHashCode() => EqualityComparer<T>.Default.GetHashCode(Value);

    /// <inheritdoc/>
    public override string ToString() => Value is IFormattable formattable ? formattable.ToString(null, CultureInfo.InvariantCulture) : Value.ToString() ?? "";

    /// <summary>A part of the value, which the same statement gives.</summary>
    public Placed<TPart> Part<TPart>(Func<T, TPart> part)
        where TPart : struct
    {
        ArgumentNullException.ThrowIfNull(part);
        return new Placed<TPart>(part(Value), Place);
    }
}

/// <summary>What is asked of a placed quantity so often that it needs no way round.</summary>
internal static class PlacedQuantities
{
    extension(Placed<Quantity> placed)
    {
        /// <summary>See <see cref="Quantity.InBase"/>.</summary>
        public decimal InBase => placed.Value.InBase;

        /// <summary>See <see cref="Quantity.Unit"/>.</summary>
        public Unit Unit => placed.Value.Unit;
    }
}
