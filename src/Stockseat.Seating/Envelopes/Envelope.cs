namespace Stockseat.Seating.Envelopes;

/// <summary>One end of an envelope.</summary>
/// <param name="DiameterMetres">The last diameter that holds, to 1 µm, in metres.</param>
/// <param name="Constraint">The constraint that stops it there.</param>
/// <param name="Gap">The gap that is too small beyond it; null when the constraint is not a gap.</param>
/// <param name="Limit">The limit, in the SI unit of the constraint; null where there is none, as for a seat.</param>
public sealed record EnvelopeEnd(double DiameterMetres, Constraint Constraint, GapReading? Gap, double? Limit);

/// <summary>The diameters around the taught one in which everything holds.</summary>
/// <param name="Least">The lower end.</param>
/// <param name="Greatest">The upper end.</param>
public sealed record Envelope(EnvelopeEnd Least, EnvelopeEnd Greatest)
{
    /// <summary>Whether a diameter, in metres, lies in the envelope; both ends belong to it.</summary>
    public bool Holds(double diameterMetres) => diameterMetres >= Least.DiameterMetres && diameterMetres <= Greatest.DiameterMetres;
}
