namespace Stockseat.Ledger.Writing;

/// <summary>The request ids of the latest entries: a retry gets the first outcome and writes nothing twice.</summary>
internal sealed class RequestMemory
{
    /// <summary>For how many entries an id is remembered, across restarts.</summary>
    public const int Entries = 100_000;

    private readonly Dictionary<(string? Client, string Request), long> _serials = [];
    private readonly Queue<((string? Client, string Request) Id, long Serial)> _order = [];

    public long? Find(string? client, string? request) =>
        request is not null && _serials.TryGetValue((client, request), out var serial) ? serial : null;

    public void Add(string? client, string? request, long serial)
    {
        while (_order.TryPeek(out var oldest) && oldest.Serial <= serial - Entries)
        {
            _serials.Remove(_order.Dequeue().Id);
        }

        if (request is not null && _serials.TryAdd((client, request), serial))
        {
            _order.Enqueue(((client, request), serial));
        }
    }
}
