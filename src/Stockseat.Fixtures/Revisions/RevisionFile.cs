namespace Stockseat.Fixtures.Revisions;

/// <summary>One revision file as it was found.</summary>
/// <param name="Number">The number that its name states.</param>
/// <param name="Path">Where it is.</param>
/// <param name="FileHash">SHA-256 of its bytes, in lower-case hexadecimal.</param>
/// <param name="Reading">What came of reading it.</param>
public sealed record RevisionFile(int Number, string Path, string FileHash, RevisionReading Reading);
