using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Writing;

/// <summary>The latest request ids and the entries that they led to: a retry gets the first outcome and writes nothing twice.</summary>
internal sealed class RequestMemory
{
    /// <summary>How many ids are remembered, across restarts.</summary>
    public const int Most = 10_000;

    private readonly Dictionary<(string? Client, string Request), long> _serials = [];
    private readonly Queue<(string? Client, string Request)> _order = [];

    public long? Find(string? client, string? request) =>
        request is not null && _serials.TryGetValue((client, request), out var serial) ? serial : null;

    public void Add(EntryBody body)
    {
        if (body.Request is not { } request || !_serials.TryAdd((body.Client, request), body.Serial))
        {
            return;
        }

        _order.Enqueue((body.Client, request));
        if (_order.Count > Most)
        {
            _serials.Remove(_order.Dequeue());
        }
    }
}
