using Stockseat.Answers.Asking;
using Stockseat.Answers.Roll;

namespace Stockseat.Ledger.Writing;

/// <summary>What of a batch is written by itself.</summary>
internal static class BatchParts
{
    /// <summary>The parts, in the order in which they are written.</summary>
    /// <param name="batch">All that queued.</param>
    /// <param name="begun">Whether the service's first entries are on the disk.</param>
    public static IEnumerable<List<Pending>> Of(List<Pending> batch, bool begun)
    {
        var start = begun ? null : batch.Find(p => p.IsStart); // Nothing else is decided before it is on the disk.
        var roll = batch.FindLast(p => p.Ask is RollAsk); // Nobody else waits until it is clear whether it may roll.
        return start is null && roll is null
            ? batch.Count > 0 ? [batch] : []
            : new List<Pending>?[] { start is null ? null : [start], batch.FindAll(p => p != start && p != roll), roll is null ? null : [roll] }
                .OfType<List<Pending>>().Where(p => p.Count > 0);
    }
}
