using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>How far the review's entries can be trusted.</summary>
/// <param name="ChainFault">Why the hashes of the entries shown do not fit together; null when they do.</param>
/// <param name="Whole">What verifying the whole ledger found; null when only the entries shown were checked.</param>
/// <param name="Replay">What replaying the entries shown found.</param>
public sealed record Evidence(string? ChainFault, Verification? Whole, ReplayResult Replay)
{
    /// <summary>Why the plant store has something else than this ledger, in words; null: it does not, as far as is known, or there is no plant store.</summary>
    public string? Plant { get; init; }
}
