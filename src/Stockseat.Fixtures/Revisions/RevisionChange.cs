namespace Stockseat.Fixtures.Revisions;

/// <summary>A value that differs between two revisions.</summary>
/// <param name="Key">Its path in the file, for example <c>taught.position.y</c>.</param>
/// <param name="Before">The value before, as the file wrote it; null: there was none.</param>
/// <param name="After">The value after; null: there is none any more.</param>
/// <param name="Unit">The SI unit of the values when they are bare numbers, as in the ledger; null: they are texts, or have no unit.</param>
public sealed record RevisionChange(string Key, string? Before, string? After, string? Unit = null);
