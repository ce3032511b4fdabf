using Stockseat.Answers.Asking;
using Stockseat.Answers.Roll;

namespace Stockseat.Ledger.Writing;

/// <summary>What of a batch is written by itself.</summary>
internal static class BatchParts
{
    /// <summary>The parts, in the order in which they are written.</summary>
    /// <param name="batch">All that queued.</param>
    /// <param name="begun">Whether the service's first entries are on the disk.</param>
    /// <param name="snapshots">Whether what holds is written before a stop.</param>
    public static IEnumerable<List<Pending>> Of(List<Pending> batch, bool begun, bool snapshots)
    {
        var start = begun ? null : batch.Find(p => p.IsStart); // Nothing else is decided before it is on the disk.
        var roll = batch.FindLast(p => p.Ask is RollAsk); // Nobody else waits until it is clear whether it may roll.
        var last = snapshots ? batch.Find(p => p.IsLast) : null; // A stop says so with its last entry, so what holds is written before it.
        return start is null && roll is null && last is null
            ? batch.Count > 0 ? [batch] : []
            : new[]
            {
                One(start), batch.FindAll(p => p != start && p != roll && p != last), One(roll), One(last is null ? null : Pending.Snapshot()), One(last),
            }.Where(p => p.Count > 0);
    }

    private static List<Pending> One(Pending? pending) => pending is null ? [] : [pending];
}
