using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Walks rows in order, from the first or from any other; it reads what it has to know of the rows before. Hashes are compared before bodies are read, so an
/// edited body is a fault, and never an unreadable version.
/// </summary>
internal sealed class ChainWalk : IDisposable
{
    private readonly EntryScan _rows;
    private readonly EntryScan _before;
    private readonly IndexWalk _indexes;
    private readonly SnapshotWalk _snapshots;
    private readonly KeyRing _ring;
    private readonly long _head;
    private readonly ChainHasher _hasher = new();

    private long _serial;
    private readonly byte[] _stored = ChainHash.Start;
    private readonly byte[] _computed = ChainHash.Start;
    private readonly byte[] _second = ChainHash.Start;
    private WalkResult _result = new();

    /// <param name="connection">The ledger.</param>
    /// <param name="ring">The keys, shared with other walks.</param>
    /// <param name="revisions">The adopted revisions, shared with other walks.</param>
    /// <param name="head">The last serial that counts.</param>
    /// <param name="indexes">Whether there are indexes to ask.</param>
    public ChainWalk(SqliteConnection connection, KeyRing ring, AdoptedRevisions revisions, long head, bool indexes)
    {
        (_ring, _head) = (ring, head);
        _rows = EntryScan.Upwards(connection);
        _before = EntryScan.Downwards(connection);
        (_indexes, _snapshots) = (new(connection, indexes), new(connection, revisions));
    }

    /// <summary>Goes to a place after a serial, as if it had walked up to there.</summary>
    public void Place(long serial)
    {
        _serial = 0;
        ChainHasher.Keep([], _stored);
        ChainHasher.Keep([], _computed);
        ChainHasher.Keep([], _second);
        _snapshots.Place(isFirst: serial <= 1);
        if (serial <= 1)
        {
            return;
        }

        var known = 0;
        _before.Begin(1, serial - 1, 2);
        while (_before.Step(out var row))
        {
            if (known++ == 0)
            {
                _serial = row.Serial;
                ChainHasher.Keep(row.Hash, _stored);
                _snapshots.Follows(row);
            }
            else
            {
                ChainHasher.Keep(row.Hash, _second);
            }
        }

        // The body is hashed in place: it may be of any length.
        _before.Begin(1, serial - 1, 1);
        while (_before.Step(out var row))
        {
            _hasher.Hash(_second, row.Body, _computed);
        }
    }

    /// <summary>Walks on from one serial up to another, over at most a given number of rows.</summary>
    public WalkResult Read(long from, long to, long count)
    {
        var result = _result = new() { LastSerial = _serial, Before = _serial };
        long? last = null;
        try
        {
            _rows.Begin(from, to, count);
            while (_rows.Step(out var row))
            {
                if (row.Serial > _head && (last ?? _serial) == _head)
                {
                    break; // Written meanwhile.
                }

                if (row.Serial < from || row.Serial <= last || row.Serial > _head)
                {
                    result.Damage = "its rows are not in order";
                    break;
                }

                last = row.Serial;
                Check(row);
                if (_snapshots.See(row) is { } fault)
                {
                    result.Snapshots.Add(fault);
                }
            }
        }
        catch (Exception e) when (LedgerVerifier.IsDamage(e))
        {
            result.Damage = e.Message;
        }

        _rows.End();
        (result.LastSerial, result.LastHash) = (last ?? result.LastSerial, _stored.ToArray());
        return result;
    }

    public void Dispose()
    {
        _rows.Dispose();
        _before.Dispose();
        _indexes.Dispose();
        _hasher.Dispose();
    }

    private void Check(in EntryBytes row)
    {
        _result.Entries++;
        _indexes.See(row, _result);
        if (row.Serial < 1)
        {
            Fault(row.Serial, FaultKinds.Start, $"entry {row.Serial} has a serial below 1, which is the first");
            return;
        }

        // A ledger that continues another one begins with this kind, and its serials go on; whether it names that other ledger is checked with the body.
        var goesOn = _serial == 0 && row.Kind.SequenceEqual("rolled-over"u8);
        _serial = goesOn ? row.Serial - 1 : _serial;
        Span<byte> computed = stackalloc byte[ChainHash.Size];
        _hasher.Hash(_stored, row.Body, computed);
        var gap = row.Serial != _serial + 1;
        if (gap)
        {
            _result.Gaps = true;
            Fault(row.Serial, FaultKinds.Gap, row.Serial - _serial == 2
                ? $"entry {_serial + 1} is missing" : $"entries {_serial + 1} to {row.Serial - 1} are missing");
        }

        if (row.Hash.SequenceEqual(computed) || Excused(row))
        {
            CheckBody(row, isFirst: goesOn || row.Serial == 1);
        }
        else if (!gap)
        {
            NotFollowing(row);
        }

        _serial = row.Serial;
        ChainHasher.Keep(_stored, _second);
        ChainHasher.Keep(row.Hash, _stored);
        ChainHasher.Keep(computed, _computed);
    }

    /// <summary>
    /// The row before has a fault of its own. This row is in its place and follows from what was there before, or, when those two rows were swapped, from the
    /// one before that.
    /// </summary>
    private bool Excused(in EntryBytes row) =>
        !_stored.AsSpan().SequenceEqual(_computed) && (_hasher.Follows(row, _computed) || _hasher.Follows(row, _second))
            && BodyReading.SerialOf(row) == row.Serial;

    private void CheckBody(in EntryBytes row, bool isFirst)
    {
        if (row.Mistyped is { } column)
        {
            Fault(row.Serial, FaultKinds.Columns, $"entry {row.Serial}: {column} is stored as a type that the table does not allow");
        }

        try
        {
            if (!BodyReading.IsPlain(row, out var isSeal))
            {
                isSeal = ReadSlowly(row);
            }

            if (isFirst)
            {
                ReadLedger(row);
            }

            if (isSeal && BodyJson.Read(Kinds.Seal, row.Body) is SealBody seal)
            {
                _result.Seals.Add(_ring.See(seal, row.Serial, _stored, _computed, _serial));
            }
        }
        catch (Exception e) when (BodyReading.IsUnreadable(e))
        {
            Fault(row.Serial, FaultKinds.Body, $"entry {row.Serial} has a body that can't be read: {e.Message}");
        }
    }

    /// <summary>Says what is wrong; returns whether it is a seal all the same.</summary>
    private bool ReadSlowly(in EntryBytes row)
    {
        using var json = BodyReading.Read(row, out var version);
        if (!EntryBody.Knows(version))
        {
            _result.Unreadable ??= $"entry {row.Serial} has version {version}; this program knows {EntryBody.OldestVersion} to {EntryBody.CurrentVersion}: "
                + "verify it with the program that wrote it";
            return false;
        }

        var differs = BodyReading.Differences(row, json.RootElement);
        if (differs.Count == 0)
        {
            return row.Kind.SequenceEqual("seal"u8);
        }

        if (BodyReading.SerialOf(row) is { } own && own != row.Serial && Home(own, row.Body) is { Same: true })
        {
            Fault(row.Serial, FaultKinds.Doubled, $"entry {row.Serial} has the body of entry {own}, which is in its own place too");
            return false;
        }

        Fault(row.Serial, FaultKinds.Columns, $"entry {row.Serial}: {string.Join("; ", differs)}");
        return json.RootElement.TryGetProperty("kind", out var kind) && kind.ValueKind == System.Text.Json.JsonValueKind.String && kind.ValueEquals("seal"u8);
    }

    private void ReadLedger(in EntryBytes row)
    {
        using var json = BodyReading.Read(row, out _);
        _result.Ledger = json.RootElement.TryGetProperty("ledger", out var id) ? id.GetString() : null;
        if (_result.Ledger is null)
        {
            Fault(row.Serial, FaultKinds.Start, "the first entry has no ledger id");
        }

        if (row.Serial > 1 && !(json.RootElement.TryGetProperty("follows", out var follows) && follows.GetProperty("last").GetInt64() == row.Serial - 1))
        {
            Fault(row.Serial, FaultKinds.Start,
                $"entry {row.Serial} is the first one here, but does not name entry {row.Serial - 1} as the one that it continues");
        }
    }

    private void NotFollowing(in EntryBytes row)
    {
        var own = BodyReading.SerialOf(row);
        if (own is { } home && home != row.Serial)
        {
            var (same, serial) = Home(home, row.Body);
            if (same)
            {
                Fault(row.Serial, FaultKinds.Doubled, $"entry {row.Serial} has the body of entry {home}, which is in its own place too");
            }
            else
            {
                Fault(row.Serial, FaultKinds.Reordered, serial == row.Serial
                    ? $"entries {row.Serial} and {home} changed places"
                    : $"entry {row.Serial} has the body of entry {home}, which is not in its place");
            }

            return;
        }

        Fault(row.Serial, FaultKinds.Edited,
            $"entry {row.Serial} does not follow from entry {_serial}: its body or its hash, or the hash before it, was changed");
    }

    /// <summary>Looks up the row with the serial that a body names: whether it has the same body, and which serial its own body names.</summary>
    private (bool Same, long? Serial) Home(long serial, ReadOnlySpan<byte> body)
    {
        try
        {
            if (serial < 1 || serial > _head)
            {
                return default;
            }

            _before.Begin(serial, serial, 1);
            return _before.Step(out var row) ? (row.Body.SequenceEqual(body), BodyReading.SerialOf(row)) : default;
        }
        catch (Exception e) when (LedgerVerifier.IsDamage(e))
        {
            return default; // The walk comes to this row too, and reports it.
        }
        finally
        {
            _before.End();
        }
    }

    private void Fault(long serial, string kind, string text) => _result.Faults.Add(serial, kind, text);
}
