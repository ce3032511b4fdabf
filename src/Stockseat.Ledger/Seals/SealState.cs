namespace Stockseat.Ledger.Seals;

/// <summary>How the ledger is sealed after its last committed entry.</summary>
/// <param name="Key">The key that seals it now (see <see cref="PublicSealKey.Fingerprint"/>); null: it is not sealed from now on.</param>
/// <param name="Newest">The newest seal.</param>
/// <param name="Unsealed">How many entries came after that seal.</param>
public sealed record SealState(string? Key, NewestSeal Newest, long Unsealed);
