using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Pushes that were refused before anything could be decided. Until a newer push of the same fixture is decided, an entry that voids its measurement is written
/// before anything else is decided. They are kept only in memory: while the ledger can't be written, nothing else can keep them.
/// </summary>
/// <param name="arrivals">Says when a push came.</param>
internal sealed class Doubts(Arrivals arrivals)
{
    /// <summary>How many fixtures are tracked one by one; with more, the measurements of all fixtures are doubtful.</summary>
    public const int MostFixtures = 1000;

    private static readonly Refusal Unavailable = Refusal.Of(Reason.LedgerUnavailable, "the ledger can't be written, so nothing is answered");

    private readonly Lock _lock = new();
    private readonly Dictionary<string, Doubt> _byFixture = new(StringComparer.Ordinal);
    private Doubt? _ofAll;
    private volatile bool _any;

    /// <summary>Refuses a batch, because the ledger can't be written.</summary>
    public void Refuse(List<Pending> batch)
    {
        foreach (var pending in batch)
        {
            Add(pending, Unavailable);
            pending.End(AppendOutcome.Of(Unavailable));
        }
    }

    /// <summary>Remembers an ask that was refused before it was decided.</summary>
    /// <param name="pending">The ask; entries that the service itself wants to write are not asks.</param>
    /// <param name="refusal">Why it was refused.</param>
    public void Add(Pending pending, Refusal refusal)
    {
        if (pending.Ask is { } ask)
        {
            Add(ask, refusal, Arrivals.First(ask, pending.Came));
        }
    }

    /// <summary>Remembers an ask that is refused now, before it was queued.</summary>
    public void Add(Ask ask, Refusal refusal) => Add(ask, refusal, Arrivals.First(ask, arrivals.Now));

    /// <summary>For one fixture the newest push counts.</summary>
    private void Add(Ask ask, Refusal refusal, long first)
    {
        if (!UndecidedPush.Matters(ask))
        {
            return;
        }

        lock (_lock)
        {
            if (_byFixture.Count >= MostFixtures && !_byFixture.ContainsKey(ask.Fixture))
            {
                _ofAll = new(ask, refusal, first);
            }
            else if (!_byFixture.TryGetValue(ask.Fixture, out var known) || known.First <= first)
            {
                _byFixture[ask.Fixture] = new(ask, refusal, first);
            }

            _any = true;
        }
    }

    /// <summary>The entries that have to be written before the next thing is decided.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="next">What is decided next; null: nothing that was asked. A push of the fixture needs no such entry: the earlier measurement does not
    /// matter to it.</param>
    /// <param name="came">When that came.</param>
    public IReadOnlyList<EntryBody> Due(Situation situation, Ask? next = null, long came = 0)
    {
        if (!_any)
        {
            return [];
        }

        lock (_lock)
        {
            Spread(situation);
            return
            [
                .. from doubt in _byFixture.Values
                   where situation.Find(doubt.Ask.Fixture)?.Measurement is not null && Concerns(next, came, doubt)
                   orderby doubt.First
                   select UndecidedPush.Entry(doubt.Ask, doubt.Refusal, situation),
            ];
        }
    }

    /// <summary>Called for each entry that an ask led to: a newer push ends the doubt.</summary>
    public void Decided(Ask? ask, long first, EntryBody entry)
    {
        if (!_any || !(entry is MeasurementBody or EmptiedBody || VoidingPush.Is(entry)))
        {
            return;
        }

        lock (_lock)
        {
            if (entry.Fixture is { } fixture && _byFixture.TryGetValue(fixture, out var doubt) && IsNewer(ask, first, doubt))
            {
                _byFixture.Remove(fixture);
                _any = _byFixture.Count > 0 || _ofAll is not null;
            }
        }
    }

    /// <summary>An ask that came before the push is decided as if the push had not come: lines on one connection keep their order.</summary>
    private static bool Concerns(Ask? next, long came, Doubt doubt) =>
        next is null || (next.Fixture == doubt.Ask.Fixture && !UndecidedPush.Matters(next) && came >= doubt.First);

    /// <summary>
    /// A push that is sent again has the same first reading, so it ends its own doubt; readings from before another refused push do not.
    /// </summary>
    private static bool IsNewer(Ask? ask, long first, Doubt doubt) =>
        ask is not null && UndecidedPush.Matters(ask) && ask.Fixture == doubt.Ask.Fixture && first >= doubt.First;

    /// <summary>The known fixtures are those whose measurement can be doubtful; an unknown fixture has none.</summary>
    private void Spread(Situation situation)
    {
        foreach (var fixture in _byFixture.Keys.Where(f => situation.Find(f) is null).ToList())
        {
            _byFixture.Remove(fixture);
        }

        foreach (var state in _ofAll is null ? [] : situation.Fixtures)
        {
            if (!_byFixture.TryGetValue(state.Fixture, out var known) || known.First <= _ofAll!.First)
            {
                _byFixture[state.Fixture] = _ofAll! with { Ask = _ofAll.Ask with { Fixture = state.Fixture } };
            }
        }

        _ofAll = null;
        _any = _byFixture.Count > 0;
    }

    private sealed record Doubt(Ask Ask, Refusal Refusal, long First);
}
