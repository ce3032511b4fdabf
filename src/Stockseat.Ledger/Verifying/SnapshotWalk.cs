using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Replaying;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Makes each snapshot from the one before it and the entries since, told every row that a walk passes. By rows alone, and by the nearest snapshot that can
/// be read: so what comes out never hangs on where the walk began.
/// </summary>
/// <param name="connection">The ledger.</param>
/// <param name="revisions">The revisions, shared with other walks.</param>
internal sealed class SnapshotWalk(SqliteConnection connection, AdoptedRevisions revisions)
{
    private const int Piece = 10_000;

    /// <summary>Null: what holds here is not known before it is asked for.</summary>
    private CarriedEntries? _carried = new(revisions.Read);

    /// <summary>The snapshot that it comes from; 0: none.</summary>
    private long _after;

    /// <summary>Goes to another place.</summary>
    /// <param name="isFirst">Whether nothing is before it.</param>
    public void Place(bool isFirst) => (_carried, _after) = (isFirst ? new(revisions.Read) : null, 0);

    /// <summary>Told the row right before the place.</summary>
    public void Follows(in EntryBytes row)
    {
        if (IsSnapshot(row))
        {
            _carried = new(revisions.Read);
            Take(row);
            _carried = _carried.Since == 0 ? _carried : null;
        }
    }

    /// <summary>Takes the next row; what is wrong when it is a snapshot that does not follow, or null.</summary>
    public SnapshotFault? See(in EntryBytes row)
    {
        if (!IsSnapshot(row))
        {
            _carried?.Add(row);
            return null;
        }

        _carried ??= Before(row.Serial);
        if (SnapshotJudge.Fault(row.Serial, row.Body, _carried) is not { } text)
        {
            _carried.Written(row.Body.Length); // It carries what was just chosen, so it need not be read.
            _after = row.Serial;
            return null;
        }

        var fault = new SnapshotFault(row.Serial, _after, text);
        Take(row);
        return fault;
    }

    private void Take(in EntryBytes row)
    {
        _carried!.Add(row);
        _after = _carried.Since == 0 ? row.Serial : _after;
    }

    private CarriedEntries Before(long serial)
    {
        for (var at = serial; ;)
        {
            var snapshot = Snapshot(at - 1);
            if (SituationReader.From(connection, snapshot, serial - 1, revisions.Read) is { } carried)
            {
                _after = snapshot ?? 0;
                return carried;
            }

            at = snapshot!.Value; // It can't be read: that before it counts.
        }
    }

    private long? Snapshot(long upTo)
    {
        using var rows = EntryScan.Downwards(connection);
        for (long? next = upTo; next is { } to;)
        {
            next = null; // until a piece is full: no read is long
            rows.Begin(long.MinValue, to, Piece);
            for (var count = 1; rows.Step(out var row); count++)
            {
                if (IsSnapshot(row))
                {
                    return row.Serial;
                }

                next = count == Piece ? row.Serial - 1 : null;
            }
        }

        return null;
    }

    private static bool IsSnapshot(in EntryBytes row) => row.Kind.SequenceEqual("snapshot"u8);
}
