using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>The first outcomes of request ids.</summary>
/// <param name="connection">The ledger.</param>
/// <param name="folder">The data folder.</param>
/// <param name="find">Finds an entry, also in a ledger that was closed before.</param>
internal sealed class RequestOutcomes(SqliteConnection connection, string folder, Func<long, EntryRow?> find) : IDisposable
{
    private readonly RequestTable? _table = RequestTable.Of(connection);

    /// <summary>Read when the first ask with an id comes: a start need not wait for it, and a controller that speaks lines never needs it.</summary>
    private RequestMemory? _memory;

    /// <summary>The first outcome of a request id; null when the id is new.</summary>
    /// <param name="caller">Who asks, and with which id.</param>
    /// <param name="last">The last entry.</param>
    /// <param name="begins">The first entry of this ledger.</param>
    public EntryBody? Of(Caller caller, long last, long begins)
    {
        if (caller.Request is null)
        {
            return null;
        }

        if (_memory is null && _table?.Agrees(last) == false)
        {
            _table.MakeAnew(last);
        }

        _memory ??= RequestMemory.Read(connection, folder, last, begins);
        var first = Read(caller);
        if (first is not null && !IsOf(first, caller) && _table is not null)
        {
            _table.MakeAnew(last); // The entry has another id than the table.
            _memory = RequestMemory.Read(connection, folder, last, begins);
            first = Read(caller);
        }

        return first is not null && IsOf(first, caller) ? first : null;
    }

    /// <summary>Called for each entry that is written.</summary>
    public void Add(EntryBody body)
    {
        _table?.Add(body);
        _memory?.Add(body.Client, body.Request, body.Serial);
    }

    /// <summary>Removes the ids that need not be remembered any more.</summary>
    /// <param name="last">The last entry.</param>
    public void Trim(long last) => _table?.Trim(last);

    public void Dispose() => _table?.Dispose();

    private static bool IsOf(EntryBody body, Caller caller) => (body.Client, body.Request) == (caller.Client, caller.Request);

    private EntryBody? Read(Caller caller) =>
        _memory!.Find(caller.Client, caller.Request) is { } serial ? find(serial)?.ReadBody() : null; // No row: its ledger has been moved away since.
}
