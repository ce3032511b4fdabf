using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Seating.Quantities;

namespace Stockseat.Service.Answering;

/// <summary>What the protocols use to ask: the boundary between conversations and the ledger.</summary>
public interface IAnswerer
{
    /// <summary>What is in force after the last committed entry.</summary>
    Situation Situation { get; }

    /// <summary>The last committed serial.</summary>
    long Serial { get; }

    /// <summary>Whether the ledger can be written now.</summary>
    bool Writable { get; }

    /// <summary>How the ledger is sealed.</summary>
    SealState Seals { get; }

    /// <summary>How many connections and requests got no entry in the ledger since the start.</summary>
    long TurnedAway { get; }

    /// <summary>How many log lines were dropped since the start, because nothing read the log fast enough.</summary>
    long LogDropped { get; }

    /// <summary>The unit in which refusals' texts have their lengths: that of the service's display.</summary>
    LengthUnit Shown { get; }

    /// <summary>Asks. The task ends when the entry is on the disk, or the ask is refused without one.</summary>
    Task<AskOutcome> Ask(Ask ask);

    /// <summary>Takes a push that is refused before it can be asked: no measurement of its fixture is used until the next one.</summary>
    /// <returns>The refusal as it is sent.</returns>
    Refusal Doubt(Ask push, Refusal refusal);

    /// <summary>A fixture's folder, read again; null when it is gone. A folder that hangs says so.</summary>
    Task<FixtureFolder?> ReadFolder(string fixture, CancellationToken stop);

    /// <summary>The refusal for a fixture that is not known: before the first entries of a service no fixture is known.</summary>
    Refusal Unknown(string fixture) => Writable
        ? Refusal.Of(Reason.FixtureUnknown, $"there is no fixture {fixture}")
        : Refusal.Of(Reason.LedgerUnavailable, $"the ledger can't be written, and until it can nothing is known about fixture {fixture}");

    /// <summary>A gauge's terms; null when it is not in the configuration.</summary>
    GaugeTerms? Terms(string? gauge);

    /// <summary>The gauges of the configuration, by name.</summary>
    IReadOnlyCollection<string> Gauges => [];

    /// <summary>Whether the configuration keeps answers first until rechecks have proven the revision in force.</summary>
    bool ProvingRequired => false;

    /// <summary>The lots of the configuration.</summary>
    IReadOnlyDictionary<string, LotTerms> Lots { get; }

    /// <summary>What the configuration says about a lot; null when it says nothing, or when no lot is named.</summary>
    LotTerms? Lot(string? name) => name is null ? null : Lots.GetValueOrDefault(name);
}
