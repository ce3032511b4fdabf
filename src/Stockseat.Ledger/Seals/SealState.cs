namespace Stockseat.Ledger.Seals;

/// <summary>How the ledger is sealed after its last committed entry.</summary>
/// <param name="Key">The key that seals it now (see <see cref="PublicSealKey.Fingerprint"/>); null: it goes on unsealed.</param>
/// <param name="Newest">The newest seal.</param>
/// <param name="Unsealed">How many entries came after it.</param>
public sealed record SealState(string? Key, NewestSeal Newest, long Unsealed);
