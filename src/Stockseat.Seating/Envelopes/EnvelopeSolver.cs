namespace Stockseat.Seating.Envelopes;

/// <summary>Finds the diameters around the taught one in which everything holds.</summary>
public static class EnvelopeSolver
{
    /// <summary>Finds both ends, to 1 µm.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="violated">What does not hold at the taught diameter itself, when there is no envelope; its diameter is the taught one.</param>
    /// <returns>The envelope; null when the taught diameter itself is outside of it.</returns>
    public static Envelope? Solve(Plan plan, out EnvelopeEnd? violated) => throw new NotImplementedException();
}
