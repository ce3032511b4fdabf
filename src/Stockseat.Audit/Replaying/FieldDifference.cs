namespace Stockseat.Audit.Replaying;

/// <summary>A value of a body that does not come out as it was recorded.</summary>
/// <param name="Path">Where it is in the body, such as shiftBase[1].</param>
/// <param name="Recorded">As recorded, as JSON; empty when it is not there.</param>
/// <param name="Recomputed">As it comes out now; empty when it does not.</param>
public sealed record FieldDifference(string Path, string Recorded, string Recomputed);
