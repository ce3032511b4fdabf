namespace Stockseat.Fixtures.Revisions;

/// <summary>When, by whom and how a revision's values were found.</summary>
/// <param name="At">The instant, as the file states it (ISO 8601).</param>
/// <param name="By">Who found the values.</param>
/// <param name="Method">How they were found.</param>
/// <param name="Note">A remark; may be empty.</param>
public sealed record CalibrationNote(string At, string By, string Method, string Note);
