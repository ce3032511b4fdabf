using System.Globalization;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>
/// Verifies every ledger of the plant store, several at once. Each is copied into a folder of its own and verified there like any other, so the verdicts are
/// those of stockseat ledger verify.
/// </summary>
/// <param name="address">Where the store is.</param>
/// <param name="told">Takes how many entries were read, and how many there are; one call at a time. Null: nobody wants to know.</param>
public sealed class StoredVerifier(PlantAddress address, Action<long, long>? told)
{
    /// <summary>How many are verified at once: each has a connection and a file.</summary>
    private static readonly int AtOnce = Math.Clamp(Environment.ProcessorCount, 1, 4);

    private readonly Lock _lock = new();
    private long _done;

    /// <summary>Verifies them.</summary>
    /// <param name="ledgers">The ledgers.</param>
    /// <param name="token">Ends it.</param>
    /// <returns>The verdicts, in the order of the ledgers.</returns>
    /// <exception cref="PlantException">The store can't be read.</exception>
    public async Task<IReadOnlyList<StoredVerification>> Run(IReadOnlyList<StoredLedger> ledgers, CancellationToken token)
    {
        var (found, entries) = (new (Verification Found, FollowedLedger? Follows)[ledgers.Count], ledgers.Sum(l => l.Last - l.First + 1));
        await Parallel.ForAsync(0, ledgers.Count, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = token }, async (i, t) =>
            found[i] = await One(ledgers[i], entries, t));
        StoredVerification[] all = [.. ledgers.Zip(found, (ledger, one) => new StoredVerification(ledger,
            Linked(one.Found, one.Follows, found.Select(f => f.Found))))];
        await Keep(all, token);
        return all;
    }

    /// <summary>Writes the verdicts into the store, where the view of the ledgers shows them, if this login may do that.</summary>
    private Task Keep(StoredVerification[] all, CancellationToken token) => PlantException.Around(address, async () =>
    {
        await using var connection = await PlantConnection.To(address, token);
        await using (var may = connection.Command("SELECT has_table_privilege('stockseat.verified', 'INSERT') AND NOT pg_is_in_recovery()"))
        {
            if (!(bool)(await may.ExecuteScalarAsync(token))!)
            {
                return false;
            }
        }

        foreach (var (ledger, found) in all.Where(v => v.Found.ExitCode < 2))
        {
            await using var command = connection.Command(
                "INSERT INTO stockseat.verified (ledger, last_serial, faults, first_fault) VALUES ($1, $2, $3, nullif($4, 0))",
                ledger.Ledger, ledger.Last, found.Faults.Count, found.Faults is [var first, ..] ? first.Serial : 0L);
            await command.ExecuteNonQueryAsync(token);
        }

        return true;
    });

    /// <summary>Adds a fault when a ledger does not follow from the one that it names.</summary>
    private static Verification Linked(Verification found, FollowedLedger? follows, IEnumerable<Verification> all)
    {
        if (follows is null)
        {
            return found;
        }

        if (all.FirstOrDefault(v => v.Ledger == follows.Ledger) is not { } before)
        {
            return found with { Findings = [.. found.Findings, $"the ledger before it, {follows.Ledger}, is not in the store"] };
        }

        return before.HeadSerial == follows.Last && before.HeadHash == follows.Hash ? found : found with
        {
            Faults = [.. found.Faults, new(follows.Last + 1, FaultKinds.Link, string.Create(
                CultureInfo.InvariantCulture,
                $"it follows entry {follows.Last} of ledger {follows.Ledger}, but that one ends here with entry {before.HeadSerial} or with another hash"))],
        };
    }

    private async Task<(Verification Found, FollowedLedger? Follows)> One(StoredLedger ledger, long all, CancellationToken token)
    {
        var folder = Directory.CreateTempSubdirectory("stockseat-plant-");
        try
        {
            var before = 0L;
            await using (var connection = await PlantConnection.To(address, token))
            {
                var copy = new StoredCopy(connection, address, (done, _) =>
                {
                    Tell(done - before, all);
                    before = done;
                });
                await copy.Make(ledger, [], folder.FullName, token);
            }

            using var file = LedgerFile.OpenClosed(Path.Combine(folder.FullName, LedgerFile.Name));
            return (LedgerVerifier.Verify(file, token), (LedgerQueries.First(file)?.TryReadBody() as RolledOverBody)?.Follows);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private void Tell(long more, long all)
    {
        lock (_lock)
        {
            told?.Invoke(_done += more, all);
        }
    }
}
