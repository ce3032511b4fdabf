using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>The request ids of the latest entries: a retry gets the first outcome and writes nothing twice.</summary>
internal sealed class RequestMemory
{
    private readonly Dictionary<(string? Client, string Request), long> _serials = [];
    private readonly Queue<((string? Client, string Request) Id, long Serial)> _order = [];

    /// <summary>Reads the ids from a ledger, and from the closed ledgers before it.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="last">Its last entry.</param>
    /// <param name="begins">Its first entry.</param>
    public static RequestMemory Read(SqliteConnection connection, string folder, long last, long begins)
    {
        var requests = new RequestMemory();
        var above = last - RequestQueries.Remembered;
        var older = above < begins ? ClosedLedgers.Requests(folder, above) : [];
        foreach (var (client, request, serial) in older.Concat(RequestQueries.Of(connection, above)))
        {
            requests.Add(client, request, serial);
        }

        return requests;
    }

    public long? Find(string? client, string? request) =>
        request is not null && _serials.TryGetValue((client, request), out var serial) ? serial : null;

    public void Add(string? client, string? request, long serial)
    {
        while (_order.TryPeek(out var oldest) && oldest.Serial <= serial - RequestQueries.Remembered)
        {
            _serials.Remove(_order.Dequeue().Id);
        }

        if (request is not null && _serials.TryAdd((client, request), serial))
        {
            _order.Enqueue(((client, request), serial));
        }
    }
}
