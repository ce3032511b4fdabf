using Stockseat.EndToEnd.Support;

namespace Stockseat.Reliability.Support;

/// <summary>What a client knows about one ask: its reply, or nothing when the connection ended before the reply.</summary>
internal sealed record Asked(string Client, string Tag, LineReply? Reply)
{
    public bool IsOk => Reply?.Verdict == "ok";
}

/// <summary>What all clients know, in the order in which they learned it.</summary>
internal sealed class History
{
    private readonly Lock _lock = new();
    private readonly List<Asked> _asked = [];
    private (int Count, TaskCompletionSource Reached)? _awaited;

    /// <summary>How many asks were answered with numbers.</summary>
    public int Ok { get; private set; }

    public void Add(string client, string tag, LineReply? reply)
    {
        Assert.True(reply is null || (reply.Verdict is "ok" or "refused" && reply["tag"] == tag), $"an unexpected reply to {tag}: {reply?.Text}");
        lock (_lock)
        {
            _asked.Add(new(client, tag, reply));
            Ok += reply?.Verdict == "ok" ? 1 : 0;
            if (_awaited is { } awaited && Ok >= awaited.Count)
            {
                awaited.Reached.TrySetResult();
            }
        }
    }

    public IReadOnlyList<Asked> Snapshot()
    {
        lock (_lock)
        {
            return [.. _asked];
        }
    }

    /// <summary>Ends when that many more asks were answered with numbers.</summary>
    public Task More(int count)
    {
        lock (_lock)
        {
            var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            _awaited = (Ok + count, reached);
            return reached.Task;
        }
    }

    /// <summary>Serials that were acknowledged and are not in the ledger.</summary>
    public static IReadOnlyList<long> Missing(IReadOnlyList<Asked> asked, IReadOnlyList<LedgerRow> rows) =>
        [.. asked.Where(a => a.IsOk).Select(a => a.Reply!.Serial).Where(s => s < 1 || s > rows.Count)];

    /// <summary>
    /// Every reply with numbers has its entry with those numbers. Every refusal has an entry that says so, or none when the
    /// service could not write to the ledger. About an unanswered ask the client knows nothing, but there are not two entries for it.
    /// </summary>
    public static void Agrees(IReadOnlyList<Asked> asked, IReadOnlyList<LedgerRow> rows)
    {
        Assert.Empty(Missing(asked, rows));
        var entries = rows.Where(r => r.Body.TryGetProperty("tag", out _)).ToLookup(r => r.Body.GetProperty("tag").GetString());
        foreach (var one in asked)
        {
            var found = entries[one.Tag].ToList();
            if (one.IsOk)
            {
                Served.Is(one.Reply!, Assert.Single(found).Body);
            }
            else if (one.Reply is { } refusal && refusal["class"] != "service")
            {
                Assert.Equal("refusal", Assert.Single(found).Kind);
            }
            else
            {
                Assert.InRange(found.Count, 0, 1);
            }
        }

        var serials = asked.Where(a => a.IsOk).Select(a => a.Reply!.Serial).ToList();
        Assert.Equal(serials.Count, serials.Distinct().Count());
        foreach (var client in asked.Where(a => a.IsOk).GroupBy(a => a.Client))
        {
            var own = client.Select(a => a.Reply!.Serial).ToList();
            Assert.Equal(own.Order(), own);
        }
    }
}
