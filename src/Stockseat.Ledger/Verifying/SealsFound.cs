namespace Stockseat.Ledger.Verifying;

/// <summary>The valid seals of a ledger.</summary>
/// <param name="Count">How many there are.</param>
/// <param name="Sealed">The last entry that the newest of them covers.</param>
/// <param name="Key">The key of that seal: SHA-256 of the public half, in lower-case hexadecimal.</param>
public sealed record SealsFound(long Count, long Sealed, string Key);
