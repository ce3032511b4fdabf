using System.Text;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Replaying;

/// <summary>Replays stretches one after another, on a connection of its own.</summary>
/// <param name="folder">The data folder.</param>
/// <param name="ledgers">The ledgers there.</param>
/// <param name="revisions">The revisions, shared with others.</param>
/// <param name="piece">How many entries one read takes.</param>
/// <param name="told">Takes how many entries were replayed since the last call.</param>
/// <param name="token">Stops it soon.</param>
internal sealed class StretchWalk(
    string folder, IReadOnlyList<ReplayedLedger> ledgers, AdoptedRevisions revisions, int piece, Action<long> told, CancellationToken token) : IDisposable
{
    private const int Corrupt = 11;
    private const int NotADatabase = 26;

    private readonly RecordedAnswers _answers = new(folder, ledgers);
    private (ReplayedLedger Ledger, SqliteConnection Connection, EntryScan Rows)? _open;

    /// <summary>Replays a stretch.</summary>
    public StretchResult Run(ReplayStretch stretch)
    {
        var result = new StretchResult();
        if (stretch.Ledger.Fault is { } fault)
        {
            result.Unreadable = fault;
            return result;
        }

        using var replay = new EntryReplay(_answers, revisions, result);
        try
        {
            var (connection, rows) = Open(stretch.Ledger);
            result.Unreadable = Place(replay, connection, stretch.Ledger, stretch.From);
            for (long? from = stretch.From; from is { } next && result.Unreadable is null;)
            {
                token.ThrowIfCancellationRequested();
                var count = Read(rows, next, stretch.To, replay, result);
                told(count);
                from = count < piece || result.Last >= stretch.To ? null : result.Last + 1; // Not by serials, which may have gaps.
            }
        }
        catch (SqliteException e) when (e.SqliteErrorCode is Corrupt or NotADatabase)
        {
            result.Unreadable = $"the file can't be read after entry {Math.Max(result.Last, stretch.From - 1)}: {e.Message.TrimEnd('.')}; what comes after "
                + "was not replayed: run stockseat ledger verify --data FOLDER";
        }

        return result;
    }

    /// <summary>What was in force right before an entry, and which version wrote at that time.</summary>
    /// <returns>Null, or why that is not known.</returns>
    public string? Place(EntryReplay replay, SqliteConnection connection, ReplayedLedger ledger, long serial)
    {
        try
        {
            replay.Place(
                SituationReader.Carried(connection, serial - 1, revisions.Read), SituationReader.Begins(connection, serial - 1),
                Program(connection, ledger, serial));
            return null;
        }
        catch (Exception e) when (EntryReplay.IsOfTheBody(e))
        {
            return $"what was in force before entry {serial} is not known: {e.Message}";
        }
    }

    public void Dispose()
    {
        Close();
        _answers.Dispose();
    }

    private long Read(EntryScan rows, long from, long to, EntryReplay replay, StretchResult result)
    {
        var count = 0L;
        try
        {
            rows.Begin(from, to, piece);
            while (result.Unreadable is null && rows.Step(out var row))
            {
                if (replay.Next(row.Serial, Kind(row.Kind), row.Body) is { } unreadable)
                {
                    result.Unreadable = $"{unreadable}; the entries after it were not replayed";
                    break;
                }

                result.First = result.First == 0 ? row.Serial : result.First;
                (result.Last, count) = (row.Serial, count + 1);
            }
        }
        finally
        {
            rows.End();
        }

        return count;
    }

    private static string Kind(ReadOnlySpan<byte> kind) => kind.SequenceEqual("answer"u8) ? Kinds.Answer : Encoding.UTF8.GetString(kind);

    /// <summary>The version of the program that wrote before an entry; at the beginning of a ledger, from the ledger before it.</summary>
    private string? Program(SqliteConnection connection, ReplayedLedger ledger, long before)
    {
        if (LedgerQueries.NewestServiceStart(connection, before - 1)?.ReadBody() is ServiceStartedBody start)
        {
            return start.Program;
        }

        foreach (var older in ledgers.Where(l => l.First < ledger.First && l.Fault is null).Reverse())
        {
            using var closed = older.Open(folder);
            if (LedgerQueries.NewestServiceStart(closed, long.MaxValue)?.ReadBody() is ServiceStartedBody last)
            {
                return last.Program;
            }
        }

        return null;
    }

    private (SqliteConnection Connection, EntryScan Rows) Open(ReplayedLedger ledger)
    {
        if (_open is not { } open || open.Ledger != ledger)
        {
            Close();
            var connection = ledger.Open(folder);
            _open = open = (ledger, connection, EntryScan.Upwards(connection));
        }

        return (open.Connection, open.Rows);
    }

    private void Close()
    {
        _open?.Rows.Dispose();
        _open?.Connection.Dispose();
        _open = null;
    }
}
