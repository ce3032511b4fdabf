using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>What the review's entries are worth.</summary>
/// <param name="ChainFault">Why the entries shown do not follow one from the other; null when they do.</param>
/// <param name="Whole">What verifying the whole ledger found; null when only the entries shown were looked at.</param>
/// <param name="Replay">What replaying the entries shown found.</param>
public sealed record Evidence(string? ChainFault, Verification? Whole, ReplayResult Replay);
