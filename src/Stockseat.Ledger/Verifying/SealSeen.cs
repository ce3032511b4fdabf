using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Verifying;

/// <summary>A seal in the chain, as far as its own row and the row before it show.</summary>
/// <param name="Body">The seal.</param>
/// <param name="Serial">The serial of its row.</param>
/// <param name="HeadFits">Whether it covers the entry before it, with the hash of that entry.</param>
/// <param name="Brought">The key that it carries; null: it carries none, or not a valid one.</param>
/// <param name="Signed">Whether the signature was made with its key; null: the key was not known yet.</param>
internal sealed record SealSeen(SealBody Body, long Serial, bool HeadFits, PublicSealKey? Brought, bool? Signed);
