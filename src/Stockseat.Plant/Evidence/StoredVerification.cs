using Stockseat.Ledger.Verifying;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>The verdict on a ledger of the plant store.</summary>
/// <param name="Ledger">The ledger.</param>
/// <param name="Found">What a verification of its rows found.</param>
public sealed record StoredVerification(StoredLedger Ledger, Verification Found);
