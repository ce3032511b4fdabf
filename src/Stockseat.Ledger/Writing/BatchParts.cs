using Stockseat.Answers.Asking;
using Stockseat.Answers.Roll;

namespace Stockseat.Ledger.Writing;

/// <summary>Splits a batch into the parts that are written separately.</summary>
internal static class BatchParts
{
    /// <summary>The parts, in the order in which they are written.</summary>
    /// <param name="batch">Everything that was waiting.</param>
    /// <param name="begun">Whether the service's first entries are on the disk.</param>
    /// <param name="snapshots">Whether a snapshot is written before a stop.</param>
    public static IEnumerable<List<Pending>> Of(List<Pending> batch, bool begun, bool snapshots)
    {
        var start = begun ? null : batch.Find(p => p.IsStart); // Nothing else is decided before these entries are on the disk.
        var roll = batch.FindLast(p => p.Ask is RollAsk); // Nobody else has to wait until it is clear whether the ledger may roll over.
        var last = snapshots ? batch.Find(p => p.IsLast) : null; // A stop is recorded by its last entry, so the snapshot is written before it.
        return start is null && roll is null && last is null
            ? batch.Count > 0 ? [batch] : []
            : new[]
            {
                One(start), batch.FindAll(p => p != start && p != roll && p != last), One(roll), One(last is null ? null : Pending.Snapshot()), One(last),
            }.Where(p => p.Count > 0);
    }

    private static List<Pending> One(Pending? pending) => pending is null ? [] : [pending];
}
