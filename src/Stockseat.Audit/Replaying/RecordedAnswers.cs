using System.Text;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Locate;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Replaying;

/// <summary>Finds answers for confirmations: usually the newest ones, which are kept in memory; others are looked up, also in closed ledgers.</summary>
/// <param name="folder">The data folder.</param>
/// <param name="ledgers">The ledgers there.</param>
internal sealed class RecordedAnswers(string folder, IReadOnlyList<ReplayedLedger> ledgers) : IDisposable
{
    private const int Kept = 1024;

    private readonly Dictionary<long, AnswerBody> _newest = [];
    private readonly Queue<long> _order = [];
    private (ReplayedLedger Ledger, SqliteConnection Connection)? _open;

    /// <summary>The entry that is replayed: an answer has to be before it.</summary>
    public long Before { get; set; }

    public void Keep(AnswerBody answer)
    {
        if (_newest.TryAdd(answer.Serial, answer))
        {
            _order.Enqueue(answer.Serial);
        }

        if (_order.Count > Kept)
        {
            _newest.Remove(_order.Dequeue());
        }
    }

    /// <summary>Finds an answer.</summary>
    /// <param name="serial">Its serial.</param>
    /// <param name="isAway">Whether its ledger was moved away or can't be read.</param>
    public ServedBody? Find(long serial, out bool isAway)
    {
        isAway = false;
        if (serial < 1 || serial >= Before)
        {
            return null;
        }

        return _newest.TryGetValue(serial, out var kept) ? kept : Row(serial, out isAway)?.ReadBody() as ServedBody;
    }

    /// <summary>An entry of any kind; null when there is none, or when its ledger was moved away.</summary>
    public EntryRow? Row(long serial, out bool isAway)
    {
        var ledger = ledgers.LastOrDefault(l => l.First <= serial && serial <= l.Last);
        isAway = ledger is null or { Fault: not null };
        return isAway ? null : LedgerQueries.Find(Open(ledger!), serial);
    }

    public void Dispose() => _open?.Connection.Dispose();

    private SqliteConnection Open(ReplayedLedger ledger)
    {
        if (_open is { } open && open.Ledger == ledger)
        {
            return open.Connection;
        }

        _open?.Connection.Dispose();
        _open = null;
        var connection = ledger.Open(folder);
        _open = (ledger, connection);
        return connection;
    }
}
