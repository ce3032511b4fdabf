using Microsoft.Extensions.Logging;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Writing;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Clients;
using Stockseat.Service.Logging;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Answering;

/// <summary>What both protocols call: an ask goes to the ledger's writer, and its outcome comes back when its entry is on the disk.</summary>
public sealed class Answerer(
    LedgerWriter writer, StockTerms terms, Display display, FixtureSettings fixtures, BoundedFolders folders, Door door, LogDrops drops, TimeProvider time,
    ILogger<Answerer> logger)
    : IAnswerer
{
    /// <summary>The longest diameter or reading that is accepted, in metres.</summary>
    public const double LongestMetres = 10;

    private readonly LogSampler _sampler = new(time);

    /// <summary>Called after each ask, with its outcome and the time that it took.</summary>
    public event Action<Ask, AskOutcome, TimeSpan>? Answered;

    /// <inheritdoc/>
    public Situation Situation => writer.Situation;

    /// <inheritdoc/>
    public long Serial => writer.Serial;

    /// <inheritdoc/>
    public bool Writable => writer.Writable;

    /// <inheritdoc/>
    public SealState Seals => writer.Seals;

    /// <inheritdoc/>
    public long TurnedAway => door.Counts.Sum(c => c.Count);

    /// <inheritdoc/>
    public long LogDropped => drops.Count;

    /// <inheritdoc/>
    public LengthUnit Shown => display.Length;

    /// <inheritdoc/>
    public bool ProvingRequired => fixtures.ProvingRequired;

    /// <inheritdoc/>
    public async Task<AskOutcome> Ask(Ask ask)
    {
        ask = ask.Shown == Shown ? ask : ask with { Shown = Shown };
        var came = time.GetTimestamp();
        var appended = await writer.Append(ask);
        var outcome = appended.Entry is { } entry ? AskOutcome.Of(entry) : AskOutcome.Of(Unrecorded(ask, appended.Refusal!));
        Answered?.Invoke(ask, outcome, time.GetElapsedTime(came));
        if (outcome.Refusal is { } refusal && _sampler.Take() is { } passedOver)
        {
            Log.Refused(logger, passedOver, ask.Verb, ask.Fixture, refusal.Info.Name, refusal.Text, ask.Caller.Client);
        }

        return outcome;
    }

    /// <inheritdoc/>
    public Refusal Doubt(Ask push, Refusal refusal)
    {
        if (!UndecidedPush.Matters(push))
        {
            return refusal;
        }

        push = push with { Shown = Shown };
        writer.Doubt(push, refusal);
        return UndecidedPush.Say(push, refusal);
    }

    /// <inheritdoc/>
    public Task<FixtureFolder?> ReadFolder(string fixture, CancellationToken stop) => folders.Read(fixture, Situation.Find(fixture)?.Folder, stop);

    /// <inheritdoc/>
    public IReadOnlyDictionary<string, LotTerms> Lots => terms.Lots;

    /// <inheritdoc/>
    public IReadOnlyCollection<string> Gauges => [.. terms.Gauges.Keys];

    /// <inheritdoc/>
    public GaugeTerms? Terms(string? gauge) => terms.Of(gauge);

    /// <summary>A refusal without an entry is counted; for a push it says that nothing was recorded.</summary>
    private Refusal Unrecorded(Ask ask, Refusal refusal)
    {
        door.Count(refusal.Reason);
        return UndecidedPush.Matters(ask) ? UndecidedPush.Say(ask, refusal) : refusal;
    }
}
