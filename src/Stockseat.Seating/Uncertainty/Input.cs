namespace Stockseat.Seating.Uncertainty;

/// <summary>One input of a propagation: how far its value may be from its estimate.</summary>
/// <param name="Value">The limit a of ±a, the amplitude, or the standard uncertainty, as the distribution says; 0 or more, in metres or radians.</param>
/// <param name="Distribution">How it spreads.</param>
public readonly record struct Input(double Value, Distribution Distribution)
{
    /// <summary>The standard uncertainty, in the unit of the value.</summary>
    public double Standard => Distribution switch
    {
        Distribution.Normal => Value,
        Distribution.Rectangular => Value / Math.Sqrt(3),
        Distribution.Arcsine => Value / Math.Sqrt(2),
        _ => throw new InvalidOperationException("an input without a distribution"),
    };

    /// <summary>Limits ±a with nothing else known.</summary>
    public static Input Limit(double a) => new(a, Distribution.Rectangular);

    /// <summary>A standard uncertainty.</summary>
    public static Input Of(double standard) => new(standard, Distribution.Normal);

    /// <summary>The step of a digital display: anywhere within half a step (JCGM 100:2008, F.2.2.1; clause from memory).</summary>
    public static Input Step(double resolution) => new(resolution / 2, Distribution.Rectangular);

    /// <summary>The mean of readings whose standard deviation is s: s/√n (JCGM 100:2008, 4.2.3; clause from memory).</summary>
    public static Input Mean(double s, int readings) => new(s / Math.Sqrt(readings), Distribution.Normal);
}
