using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Forwarding;

/// <summary>Finds where the store ends in a ledger. It asks the store each time: a store may lose its newest rows, when a standby takes over.</summary>
internal static class LedgerPlace
{
    /// <summary>The last entry that both have, or where they differ.</summary>
    public static async Task<(long Above, LedgerDifference? Difference)> Find(LocalLedger local, StoredRows store, CancellationToken token)
    {
        if (await store.Head(local.Id, token) is not var (serial, hash))
        {
            return (0, null);
        }

        var last = local.Last;
        var common = Math.Min(serial, last);
        var theirs = common == serial ? hash : await store.HashOf(local.Id, common, token);
        if (Same(local.HashOf(common), theirs))
        {
            return serial <= last ? (serial, null) : (last, await Difference(local, store, last + 1, token));
        }

        // Each hash covers all entries before it, so what differs once differs to the end.
        var (same, differs) = (0L, common);
        while (differs - same > 1)
        {
            var middle = same + ((differs - same) / 2);
            (same, differs) = await store.HashOf(local.Id, middle, token) is not { } stored || Same(local.HashOf(middle), stored)
                ? (middle, differs) : (same, middle);
        }

        return (same, await Difference(local, store, differs, token));
    }

    /// <summary>The difference at an entry.</summary>
    public static async Task<LedgerDifference> Difference(LocalLedger local, StoredRows store, long serial, CancellationToken token) => new(
        local.Id, serial, Convert.ToHexStringLower(await store.HashOf(local.Id, serial, token) ?? []), Convert.ToHexStringLower(local.HashOf(serial) ?? []));

    private static bool Same(byte[]? ours, byte[]? theirs) => ours is not null && theirs is not null && ours.AsSpan().SequenceEqual(theirs);
}
