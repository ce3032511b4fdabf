using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Replaying;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Makes each snapshot from the one before it and the entries since; it gets every row that a walk passes. It uses only rows, and the nearest snapshot that can
/// be read, so the result does not depend on where the walk began.
/// </summary>
/// <param name="connection">The ledger.</param>
/// <param name="revisions">The revisions, shared with other walks.</param>
internal sealed class SnapshotWalk(SqliteConnection connection, AdoptedRevisions revisions)
{
    private const int Piece = 10_000;

    /// <summary>Null: the situation at this place is not known until it is needed.</summary>
    private CarriedEntries? _carried = new(revisions.Read);

    /// <summary>The snapshot from which it follows; 0: there is none.</summary>
    private long _after;

    /// <summary>Goes to another place.</summary>
    /// <param name="isFirst">Whether there is nothing before it.</param>
    public void Place(bool isFirst) => (_carried, _after) = (isFirst ? new(revisions.Read) : null, 0);

    /// <summary>Gets the row right before the place.</summary>
    public void Follows(in EntryBytes row)
    {
        if (IsSnapshot(row))
        {
            _carried = new(revisions.Read);
            Take(row);
            _carried = _carried.Since == 0 ? _carried : null;
        }
    }

    /// <summary>Takes the next row; returns what is wrong when it is a snapshot that does not follow, or null.</summary>
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
            _carried.Written(row.Body.Length); // It carries exactly the entries that were just chosen, so it need not be read.
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

            at = snapshot!.Value; // It can't be read, so the snapshot before it counts.
        }
    }

    private long? Snapshot(long upTo)
    {
        using var rows = EntryScan.Downwards(connection);
        for (long? next = upTo; next is { } to;)
        {
            next = null; // Read until a piece is full, so that no read is long.
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
