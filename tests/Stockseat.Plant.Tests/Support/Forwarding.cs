using System.Collections.Concurrent;
using Stockseat.Ledger.Store;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Forwarding;

namespace Stockseat.Plant.Tests.Support;

/// <summary>A forwarder that runs beside the writer of a test's ledger; what it told is kept.</summary>
internal sealed class Forwarding : IForwardingNews, IAsyncDisposable
{
    private readonly Forwarder _forwarder;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _run;

    public Forwarding(Ledger.Tests.Support.Ledger ledger, PlantAddress address)
    {
        _forwarder = new(address, ledger.Folder, ledger.Writer, TimeProvider.System, this);
        _run = Task.Run(() => _forwarder.Run(_stop.Token));
    }

    public ConcurrentQueue<string> News { get; } = new();

    public ForwardingState State => _forwarder.State;

    public Task Stores(long serial) => Deadline.Until(() => State.Stored >= serial && State.Even is not null, $"entry {serial} in the store: {State}");

    public Task Tells(string text) => Deadline.Until(() => News.Any(n => n.Contains(text, StringComparison.Ordinal)), $"the news '{text}'");

    public void Reached(string store) => News.Enqueue($"reached {store}");

    public void Lost(string cause) => News.Enqueue($"lost {cause}");

    public void CaughtUp(long serial) => News.Enqueue($"caught up");

    public void Stopped(string fault) => News.Enqueue($"stopped {fault}");

    public void GoesOn() => News.Enqueue("goes on");

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await ((Task)_run.Within("the forwarder's end")).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        Assert.True(_run.IsCanceled, $"the forwarder ended otherwise: {_run.Exception}");
        await _forwarder.DisposeAsync();
        _stop.Dispose();
    }

    /// <summary>The rows of a ledger as a store has to have them.</summary>
    public static List<string> Expected(string file)
    {
        using var connection = LedgerFile.OpenFile(file);
        return [.. LedgerQueries.After(connection, 0, int.MaxValue).Select(r =>
            $"{r.Serial},{r.At},{r.Kind},{r.Fixture ?? "-"},{r.Revision?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "-"},"
            + $"{r.Client ?? "-"},{r.Tag ?? "-"},{Convert.ToHexStringLower(r.Hash)},{r.Body}")];
    }

    /// <summary>The rows of a ledger in the store, in the same form.</summary>
    public static Task<List<string>> Stored(Database database, string ledger) => database.Sql(
        "SELECT serial, to_char(at AT TIME ZONE 'UTC', 'YYYY-MM-DD\"T\"HH24:MI:SS.US\"Z\"'), kind, fixture, revision, client, tag, encode(hash, 'hex'), body"
        + $" FROM stockseat.entry WHERE ledger = '{ledger}' ORDER BY serial");
}
