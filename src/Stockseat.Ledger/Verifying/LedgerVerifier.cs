using System.Runtime.ExceptionServices;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Verifies a ledger: its chain, its seals, its indexes, and the anchors that were given. The result for a ledger is always the same, however many ranges are
/// read at once.
/// </summary>
public sealed class LedgerVerifier
{
    /// <summary>How many faults are listed; the last one says how many more there are.</summary>
    public const int MostFaults = 1000;

    private const long OneGo = 2000; // How many rows are read at once when it goes row by row from the first.
    private const int NoSuchTable = 1; // The table or a column is missing, or a view is in its place.
    private const int Corrupt = 11;
    private const int NotADatabase = 26;

    private readonly Func<SqliteConnection> _open;
    private readonly SqliteConnection _connection;
    private readonly VerifyOptions _options;
    private readonly CancellationToken _token;
    private readonly string? _folder;
    private readonly KeyRing _ring;
    private readonly AdoptedRevisions _revisions = new();
    private readonly Dictionary<string, LedgerVerifier> _closed = [];

    private LedgerVerifier(Func<SqliteConnection> open, SqliteConnection connection, VerifyOptions options, string? folder, CancellationToken token)
    {
        (_open, _connection, _options, _folder, _token) = (open, connection, options, folder, token);
        _ring = new(options.Keys);
    }

    /// <summary>Verifies the ledger in a folder, with or without a running service.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="options">The anchors and keys to check against, and how to read.</param>
    /// <param name="token">Stops it soon.</param>
    public static Verification Verify(string folder, VerifyOptions options, CancellationToken token)
    {
        using var connection = LedgerFile.OpenReader(folder);
        return new LedgerVerifier(() => LedgerFile.OpenReader(folder), connection, options, folder, token).Run();
    }

    /// <summary>Verifies over one connection, without anchors.</summary>
    /// <param name="connection">The ledger, opened for reading.</param>
    /// <param name="token">Stops it soon.</param>
    public static Verification Verify(SqliteConnection connection, CancellationToken token) =>
        new LedgerVerifier(() => connection, connection, new() { Ranges = 1 }, null, token).Run();

    /// <summary>Whether an exception means that the file is broken.</summary>
    internal static bool IsDamage(Exception e) =>
        e is SqliteException { SqliteErrorCode: NoSuchTable or Corrupt or NotADatabase }
            or InvalidOperationException or InvalidCastException or OverflowException or InvalidDataException;

    private Verification Run()
    {
        _token.ThrowIfCancellationRequested();
        var (extra, pages) = (new FaultList(), new FaultList());
        var checking = _options.Pages ? Task.Run(() => CheckPages(pages), _token) : Task.CompletedTask; // This runs beside the walk.
        var indexes = LedgerIndexes.CheckTables(_connection, extra);
        var ends = Ends();
        var seals = new SealJudge(_options, _ring);
        var merge = new Merge(seals, _options.Progress, Total(ends));
        if (ends is not var (first, head) || !InRanges(merge, first, head, indexes))
        {
            // One walk from the first row finds the place, whatever a search over a broken page may have shown.
            seals = new(_options, _ring);
            merge = new(seals, _options.Progress, Total(ends));
            InOneGo(merge, ends?.Head ?? long.MaxValue, indexes);
        }

        var faults = merge.Faults();
        var findings = new List<string>();
        var all = merge.All;
        if (all.Damage is { } damage)
        {
            faults.Add(all.LastSerial + 1, FaultKinds.Damaged,
                $"the file can't be read after entry {all.LastSerial}: {damage}; later entries were not checked");
        }
        else if (indexes)
        {
            LedgerIndexes.CheckCounts(_connection, all.LastSerial, all.Standing, all.RefusedPushes, extra, _token);
            RequestCheck.Run(_connection, all.LastSerial, faults, extra, _token);
        }

        if (all.Entries == 0)
        {
            faults.Add(0, FaultKinds.Start, "the ledger has no entries, but even the first start of the service writes one");
        }

        seals.End(all.LastSerial, extra, findings);
        var unusable = Anchors(all, extra, findings);
        checking.GetAwaiter().GetResult();
        faults.Add(extra);
        faults.Add(pages);
        return new(all.Entries, all.Ledger, all.LastSerial, Convert.ToHexStringLower(all.LastHash), faults.InOrder(), findings, all.Unreadable ?? unusable)
        {
            Seals = seals.Found,
        };
    }

    private void CheckPages(FaultList faults)
    {
        using var connection = _open();
        PageCheck.Run(connection, faults, _token);
    }

    private static long Total((long First, long Head)? ends) => ends is var (first, head) && first > 0 ? head - first + 1 : ends?.Head ?? 0;

    /// <summary>
    /// The first and the last serial. They are fixed before the walk, so entries that a running service adds meanwhile are not checked. Null: there are no
    /// rows, or it can't be found out.
    /// </summary>
    private (long First, long Head)? Ends()
    {
        try
        {
            using var command = _connection.CreateCommand();
            command.CommandText = "SELECT (SELECT min(serial) FROM entry), (SELECT max(serial) FROM entry)";
            using var reader = command.ExecuteReader();
            return reader.Read() && !reader.IsDBNull(0) && !reader.IsDBNull(1) ? (reader.GetInt64(0), reader.GetInt64(1)) : null;
        }
        catch (Exception e) when (IsDamage(e))
        {
            return null;
        }
    }

    /// <summary>Reads several ranges at once; false when rows are missing or the file is broken.</summary>
    private bool InRanges(Merge merge, long first, long head, bool indexes)
    {
        var pieces = new Pieces(_connection, first, head, _options.Piece);
        var broken = 0;
        void Range()
        {
            // A connection of its own: the main one deals out the pieces.
            var connection = _open();
            try
            {
                using var walk = new ChainWalk(connection, _ring, _revisions, head, indexes);
                while (Volatile.Read(ref broken) == 0 && !merge.Broken && pieces.Next() is var (number, from, to))
                {
                    _token.ThrowIfCancellationRequested();
                    walk.Place(from);
                    merge.Take(number, walk.Read(from, to, long.MaxValue));
                }
            }
            catch (Exception e) when (IsDamage(e))
            {
                Volatile.Write(ref broken, 1);
            }
            finally
            {
                if (connection != _connection)
                {
                    connection.Dispose();
                }
            }
        }

        Together(Range);
        return broken == 0 && !merge.Broken && merge.All.LastSerial == head;
    }

    private void Together(Action range)
    {
        try
        {
            Parallel.For(0, _options.Ranges, new ParallelOptions { MaxDegreeOfParallelism = _options.Ranges }, _ => range());
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }

    private void InOneGo(Merge merge, long head, bool indexes)
    {
        if (Walk(merge, head, indexes) is not { } begun)
        {
            return;
        }

        using var walk = begun;
        var from = long.MinValue;
        for (long number = 0; ; number++)
        {
            _token.ThrowIfCancellationRequested();
            // The length of a read is fixed here: the result for a broken page must not depend on an option.
            var result = walk.Read(from, long.MaxValue, OneGo);
            var last = result.LastSerial;
            var end = result.Damage is not null || result.Entries < OneGo || last >= head;
            if (end && head != long.MaxValue && last != head)
            {
                result.Damage ??= $"by one search its last entry is {last}, by another {head}";
            }

            merge.Take(number, result);
            if (end)
            {
                return;
            }

            from = last + 1;
        }
    }

    /// <summary>A walk over all rows; null when the table does not exist, or its name belongs to something else.</summary>
    private ChainWalk? Walk(Merge merge, long head, bool indexes)
    {
        try
        {
            return new(_connection, _ring, _revisions, head, indexes);
        }
        catch (SqliteException e) when (IsDamage(e))
        {
            merge.Take(0, new() { Damage = e.Message.TrimEnd('.') });
            return null;
        }
    }

    /// <summary>Checks the anchors; returns why one can't be used, or null.</summary>
    private string? Anchors(WalkResult all, FaultList faults, List<string> findings)
    {
        string? unusable = null;
        foreach (var anchor in _options.Anchors)
        {
            try
            {
                unusable ??= Older(anchor, all, faults, findings, out var why)
                    ? why : AnchorJudge.Judge(anchor, _connection, all.Ledger, all.LastSerial, all.LastSerial, _ring, faults, findings);
            }
            catch (Exception e) when (IsDamage(e))
            {
                faults.Add(anchor.Serial, FaultKinds.Damaged, $"the entry {anchor.Serial} of an anchor can't be read: {e.Message}");
            }
        }

        if (_options.Anchors.Count == 0)
        {
            findings.Add("no anchor was given, so a cut tail or an old copy that was put back would not be noticed");
        }

        return unusable;
    }

    /// <summary>Whether an anchor belongs to a ledger that this one continues; it is then checked against that ledger, where it still exists.</summary>
    private bool Older(Anchor anchor, WalkResult all, FaultList faults, List<string> findings, out string? unusable)
    {
        unusable = null;
        if (_folder is not { } folder || anchor.Ledger == all.Ledger)
        {
            return false;
        }

        foreach (var (_, path) in ClosedLedgers.Of(folder))
        {
            using var closed = ClosedLedgers.TryOpen(path);
            if (closed is not null && LedgerQueries.LedgerId(closed) == anchor.Ledger)
            {
                var older = Closed(path, closed, faults);
                unusable = AnchorJudge.Judge(anchor, closed, anchor.Ledger, LedgerQueries.Last(closed), all.LastSerial, older._ring, faults, findings);
                return true;
            }
        }

        // Without an id its first entry can't be read, which the walk has reported already.
        if (all.Ledger is null || LedgerQueries.First(_connection) is not { } first || first.TryReadBody() is not RolledOverBody { Follows: { } follows })
        {
            return false;
        }

        unusable = AnchorJudge.JudgeAway(anchor, follows, first.Serial, faults, findings);
        return follows.Ledger == anchor.Ledger || unusable is not null;
    }

    /// <summary>Walks a closed ledger, once: a hash that is stored in it proves nothing about the bodies before.</summary>
    private LedgerVerifier Closed(string path, SqliteConnection closed, FaultList faults)
    {
        if (_closed.TryGetValue(path, out var walked))
        {
            return walked;
        }

        var verifier = _closed[path] = new(() => closed, closed, new() { Ranges = 1, Keys = _options.Keys }, null, _token);
        foreach (var fault in verifier.Run().Faults)
        {
            faults.Add(fault.Serial, fault.Kind, $"{Path.GetFileName(path)}: {fault.Text}");
        }

        return verifier;
    }
}
