namespace Stockseat.Audit.Replaying;

/// <summary>A value of a body that does not come out as it was recorded.</summary>
/// <param name="Path">Where it is in the body, such as shiftBase[1].</param>
/// <param name="Recorded">As recorded, as JSON; empty when it was not recorded.</param>
/// <param name="Recomputed">As computed now, as JSON; empty when it does not come out.</param>
public sealed record FieldDifference(string Path, string Recorded, string Recomputed);
