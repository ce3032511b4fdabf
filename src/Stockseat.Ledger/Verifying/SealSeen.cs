using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Verifying;

/// <summary>A seal in the chain, as far as its own row and the one before tell.</summary>
/// <param name="Body">The seal.</param>
/// <param name="Serial">Its row.</param>
/// <param name="HeadFits">Whether it covers the entry before it, with that entry's hash.</param>
/// <param name="Brought">The key that it carries; null: none, or one that is no key.</param>
/// <param name="Signed">Whether the signature is its key's; null: the key was not known yet.</param>
internal sealed record SealSeen(SealBody Body, long Serial, bool HeadFits, PublicSealKey? Brought, bool? Signed);
