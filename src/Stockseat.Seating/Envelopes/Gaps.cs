namespace Stockseat.Seating.Envelopes;

/// <summary>How far everything that may meet is apart.</summary>
public static class Gaps
{
    /// <summary>All gaps at a diameter, the smallest first; empty when the stock finds no seat.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="diameterMetres">The stock's diameter, in metres.</param>
    public static IReadOnlyList<GapReading> At(Plan plan, double diameterMetres) => throw new NotImplementedException();
}
