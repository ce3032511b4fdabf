using System.Globalization;

namespace Stockseat.Fixtures.Reading;

/// <summary>The values that a quantity may have, in SI units.</summary>
/// <param name="From">The least.</param>
/// <param name="To">The greatest.</param>
/// <param name="OpenFrom">Whether the least value itself is excluded.</param>
public readonly record struct Range(double From, double To, bool OpenFrom = false)
{
    /// <summary>Above 0, up to 10 m.</summary>
    public static Range Size { get; } = new(0, 10, OpenFrom: true);

    /// <summary>From 0 to 10 m.</summary>
    public static Range Gap { get; } = new(0, 10);

    /// <summary>Within 100 m either way.</summary>
    public static Range Place { get; } = new(-100, 100);

    /// <summary>A full turn either way, in radians.</summary>
    public static Range Turn { get; } = new(-2 * Math.PI, 2 * Math.PI);

    /// <summary>Whether a value is within the range.</summary>
    public bool Holds(double value) => (OpenFrom ? value > From : value >= From) && value <= To;

    /// <summary>The range in words, with a unit.</summary>
    public string Text(string unit) => string.Create(
        CultureInfo.InvariantCulture, $"{(OpenFrom ? "above" : "from")} {From:0.######} {unit} to {To:0.######} {unit}");
}
