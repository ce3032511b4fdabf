namespace Stockseat.Fixtures.Revisions;

/// <summary>A value that differs between two revisions.</summary>
/// <param name="Key">Its path in the file, for example <c>taught.position.y</c>.</param>
/// <param name="Before">What it was, as the file wrote it; null: it was not there.</param>
/// <param name="After">What it is; null: it is not there any more.</param>
public sealed record RevisionChange(string Key, string? Before, string? After);
