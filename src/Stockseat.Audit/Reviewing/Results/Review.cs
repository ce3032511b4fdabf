using Stockseat.Answers.Adopt;
using Stockseat.Answers.State;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>The minutes around an instant: what a report, a command and a call show. Only data.</summary>
public sealed record Review
{
    /// <summary>The ledger's id; null when its first entry carries none.</summary>
    public required string? Ledger { get; init; }

    /// <summary>The last serial when the review was made.</summary>
    public required long HeadSerial { get; init; }

    /// <summary>Its hash, in lower-case hexadecimal.</summary>
    public required string HeadHash { get; init; }

    /// <summary>What was asked.</summary>
    public required ReviewQuestion Question { get; init; }

    /// <summary>The instant that is reviewed.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The last entry up to that instant: what was in force is what was in force after it; 0 when there is none.</summary>
    public long Then { get; init; }

    /// <summary>Whether an entry came after the instant: where the clock was set, its own time does not show that.</summary>
    public bool IsAfter(ReviewEntry entry) => entry.Serial > Then;

    /// <summary>The first instant of the window.</summary>
    public DateTimeOffset From => At.Moved(-Question.Before);

    /// <summary>The last.</summary>
    public DateTimeOffset To => At.Moved(Question.After);

    /// <summary>The entries of the window, in the order of their serials.</summary>
    public required IReadOnlyList<ReviewEntry> Entries { get; init; }

    /// <summary>How many more entries the window has: those nearest to the instant are shown.</summary>
    public long LeftOut { get; init; }

    /// <summary>Entries from outside the window that are named here, in order; an entry that was carried over from another ledger has no hash.</summary>
    public IReadOnlyList<ReviewEntry> Older { get; init; } = [];

    /// <summary>The adoptions of the revisions that answers and fixtures come from, with their content, in order; also from before the window.</summary>
    public required IReadOnlyList<RevisionAdoptedBody> Adoptions { get; init; }

    /// <summary>The fixtures at the instant.</summary>
    public required IReadOnlyList<FixtureThen> Fixtures { get; init; }

    /// <summary>What stood in the nests of each fixture right before the window; empty where nobody had said so.</summary>
    public IReadOnlyDictionary<string, Load> LoadsBefore { get; init; } = new Dictionary<string, Load>();

    /// <summary>The answers of the window, in order.</summary>
    public required IReadOnlyList<ServedAnswer> Answers { get; init; }

    /// <summary>How far the entries can be trusted.</summary>
    public required Evidence Evidence { get; init; }

    /// <summary>What to look at, the most likely cause first: the order is that of <c>FindingOrder</c>.</summary>
    public IReadOnlyList<ReviewFinding> Findings { get; init; } = [];

    /// <summary>
    /// What happened, in a few sentences: the first says what most likely happened, as far as the ledger knows; then the headlines, the last answers, and how
    /// far the record can be trusted.
    /// </summary>
    public IReadOnlyList<string> Summary { get; init; } = [];

    /// <summary>Lot and diameter before and after, that of the first finding's fixture first.</summary>
    public IReadOnlyList<ReviewHeadline> Headlines { get; init; } = [];

    /// <summary>What the adoptions among the findings changed.</summary>
    public IReadOnlyList<AdoptionChanges> Changes { get; init; } = [];
}
