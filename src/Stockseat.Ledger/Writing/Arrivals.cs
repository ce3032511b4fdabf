using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Measured;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Notes on a push what happened on its way to the decision: how long it waited, and whether the nests were emptied, the fixture was held or a revision was
/// adopted by an ask that came later but was decided earlier. That can happen between two clients that are served in turn.
/// </summary>
/// <param name="time">The clock's counter.</param>
internal sealed class Arrivals(TimeProvider time)
{
    /// <summary>A push that came straight from its sender and waited less than this is not marked: the difference would not show in any age.</summary>
    private const double LeastSeconds = 1;

    private readonly Dictionary<string, (long Came, long Serial)> _cleared = new(StringComparer.Ordinal);

    /// <summary>The counter now.</summary>
    public long Now => time.GetTimestamp();

    /// <summary>When an ask came, or, for a push, when its first reading came: a push that is sent again has the same.</summary>
    public static long First(Ask ask, long came) => (ask as MeasureAsk)?.FirstAt ?? came;

    /// <summary>The ask with what is known about how it arrived.</summary>
    public Ask Told(Pending pending)
    {
        if (pending.Ask is not MeasureAsk push)
        {
            return pending.Ask!;
        }

        var waited = time.GetElapsedTime(First(push, pending.Came)).TotalSeconds;
        if (push.FirstAt is not null || waited >= LeastSeconds)
        {
            push = push with { Waited = Math.Round(waited, 6) };
        }

        return _cleared.TryGetValue(push.Fixture, out var cleared) && cleared.Came > pending.Came && !(push.Since < cleared.Serial)
            ? push with { Since = cleared.Serial - 1 }
            : push;
    }

    /// <summary>Called for each entry that an ask led to, of a fixture that the ledger knows.</summary>
    public void Decided(Pending pending, EntryBody entry)
    {
        if (entry is EmptiedBody or HeldBody or RevisionAdoptedBody && entry.Fixture is { } fixture)
        {
            _cleared[fixture] = (Math.Max(pending.Came, _cleared.GetValueOrDefault(fixture).Came), entry.Serial);
        }
    }
}
