namespace Stockseat.Fixtures.Revisions;

/// <summary>
/// How the place where the gripper holds the stock follows the stock's length: along the normal by a share of the difference from the taught length.
/// </summary>
/// <param name="Share">The share, 0 to 1: 1 when the stock is held at its free end, 0.5 when a bar against an end stop is held in its middle.</param>
/// <param name="TaughtLengthMetres">The length that the origin was taught with, in metres.</param>
/// <param name="WithinMetres">How far a measured length may be off, in metres; null: not known.</param>
public sealed record Grip(double Share, double TaughtLengthMetres, double? WithinMetres)
{
    /// <summary>How far stock of a length moves the place where it is held, along the normal, in metres.</summary>
    public double Shift(double lengthMetres) => Share * (lengthMetres - TaughtLengthMetres);
}
