using Microsoft.Data.Sqlite;
using Npgsql;
using Polly;
using Polly.CircuitBreaker;
using Polly.Retry;
using Polly.Timeout;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;
using Stockseat.Plant.Connecting;

namespace Stockseat.Plant.Forwarding;

/// <summary>
/// Sends every entry of a data folder to the plant store, in order, beside the writer. An entry may be sent more than once, and is stored once. It waits for
/// commits and never makes anybody wait.
/// </summary>
public sealed class Forwarder : IAsyncDisposable
{
    /// <summary>How long entries are gathered before they are sent together.</summary>
    private static readonly TimeSpan Gathering = TimeSpan.FromMilliseconds(250);

    /// <summary>How often a store is looked at while nothing is new, and one that differs.</summary>
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(30);

    /// <summary>The most time for one step: a connect, a look, or a piece.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(60);

    private const int FailuresToBreak = 5;

    /// <summary>How long the server is left alone after so many failures in a row.</summary>
    private static readonly TimeSpan Break = TimeSpan.FromSeconds(15);

    private readonly PlantAddress _address;
    private readonly string _folder;
    private readonly LedgerWriter _writer;
    private readonly TimeProvider _time;
    private readonly IForwardingNews _news;
    private readonly ResiliencePipeline _attempts;
    private readonly ResiliencePipeline _step;
    private readonly Dictionary<string, string> _faults = new(StringComparer.Ordinal);
    private StoreLink? _link;
    private bool _told;
    private volatile ForwardingState _state;

    /// <param name="address">Where the store is.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="writer">Tells of commits.</param>
    /// <param name="time">The clock.</param>
    /// <param name="news">Takes what a log should have.</param>
    public Forwarder(PlantAddress address, string folder, LedgerWriter writer, TimeProvider time, IForwardingNews news)
    {
        (_address, _folder, _writer, _time, _news) = (address, folder, writer, time, news);
        _state = new(address.Name, Connected: false, Waiting: false, Cause: null, Stored: 0, Even: null, Faults: []);
        var failures = new PredicateBuilder().Handle<Exception>(e => e is not OperationCanceledException);
        _attempts = new ResiliencePipelineBuilder { TimeProvider = time }
            .AddRetry(new RetryStrategyOptions
            {
                ShouldHandle = failures,
                MaxRetryAttempts = int.MaxValue,
                DelayGenerator = a => ValueTask.FromResult<TimeSpan?>(Pause.After(a.AttemptNumber, Random.Shared.NextDouble())),
                OnRetry = a => Failed(a.Outcome.Exception!),
            })
            .AddCircuitBreaker(new CircuitBreakerStrategyOptions
            {
                ShouldHandle = failures,
                FailureRatio = 1,
                MinimumThroughput = FailuresToBreak,
                SamplingDuration = Pause.Longest * FailuresToBreak,
                BreakDuration = Break,
            })
            .Build();
        _step = new ResiliencePipelineBuilder { TimeProvider = time }.AddTimeout(new TimeoutStrategyOptions { Timeout = Step }).Build();
    }

    /// <summary>How it goes now; from any thread.</summary>
    public ForwardingState State => _state;

    /// <summary>Sends until it is stopped.</summary>
    public async Task Run(CancellationToken stopping)
    {
        while (!stopping.IsCancellationRequested)
        {
            var more = _writer.NextCommit; // Taken before the round, so that no commit is missed.
            await _attempts.ExecuteAsync(Round, stopping);
            await Task.WhenAny(more, Task.Delay(Look, _time, stopping));
            await Task.Delay(Gathering, _time, stopping);
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Leave();

    /// <summary>Sends what is missing: of the closed ledgers first, then of the current one.</summary>
    private async ValueTask Round(CancellationToken token)
    {
        _link ??= await Timed(async t => await StoreLink.Open(_address, t), token);
        if (!_state.Connected)
        {
            _state = _state with { Connected = true, Waiting = false, Cause = null };
            _news.Reached(_address.Name);
        }

        foreach (var (_, path) in ClosedLedgers.Of(_folder))
        {
            if (!_link.Complete.Contains(ClosedLedgers.Ended(path)) && await Try(ClosedLedgers.Ended(path), () => LocalLedger.Closed(path), token) is not null)
            {
                _link.Complete.Add(ClosedLedgers.Ended(path));
            }
        }

        if (await Try(LedgerFile.Name, () => LocalLedger.Current(_folder), token) is { } last)
        {
            _state = _state with { Stored = last, Even = _time.GetUtcNow() };
            if (!_told)
            {
                _told = true;
                _news.CaughtUp(last);
            }
        }
    }

    /// <summary>Sends one ledger; returns its last serial when all of it is stored. What is wrong with it stops no other ledger.</summary>
    private async Task<long?> Try(string name, Func<LocalLedger?> open, CancellationToken token)
    {
        string? fault;
        long? last = null;
        try
        {
            using var local = open();
            (last, fault) = local is null ? (0, null) : await Send(local, name, token);
        }
        catch (UnsendableException e)
        {
            fault = e.Message;
        }

        Note(name, fault);
        return fault is null ? last : null;
    }

    private async Task<(long Last, string? Fault)> Send(LocalLedger local, string name, CancellationToken token)
    {
        var (above, difference) = await Timed(async t => await _link!.Find(local, t), token);
        var last = local.Last; // What is written meanwhile is gathered for the next round.
        var most = LocalLedger.Rows;
        while (difference is null)
        {
            var rows = above < last ? local.Piece(above, last, most) : [];
            if (rows.Count == 0)
            {
                return (above, null);
            }

            try
            {
                difference = await Timed(async t => await _link!.Store(local, above, rows, t), token);
            }
            catch (PostgresException e) when (IsOfData(e))
            {
                // Half of the piece each time, until the row is found and all before it are stored.
                most = rows.Count > 1 ? rows.Count / 2 : throw new UnsendableException(
                    $"entry {rows[0].Serial} can't be stored: {e.MessageText.TrimEnd('.')}; verify the ledger with stockseat ledger verify", e);
                continue;
            }

            above = difference is null ? rows[^1].Serial : above;
            if (name == LedgerFile.Name)
            {
                _state = _state with { Stored = above };
            }
        }

        return (above, difference.Text);
    }

    /// <summary>Whether the server can't hold what was sent: the class of errors about data.</summary>
    private static bool IsOfData(PostgresException e) => e.SqlState.StartsWith("22", StringComparison.Ordinal);

    /// <summary>Keeps what is wrong with a ledger, and tells it once.</summary>
    private void Note(string name, string? fault)
    {
        if (_faults.GetValueOrDefault(name) == fault)
        {
            return;
        }

        if (fault is null)
        {
            _faults.Remove(name);
            _state = _state with { Faults = [.. _faults.Values] };
            _news.GoesOn();
        }
        else
        {
            _faults[name] = fault;
            _state = _state with { Faults = [.. _faults.Values] };
            _news.Stopped(fault);
        }
    }

    private async ValueTask Failed(Exception e)
    {
        await Leave();
        if (e is BrokenCircuitException)
        {
            _state = _state with { Waiting = true };
            return;
        }

        var cause = e is TimeoutRejectedException ? $"the plant store {_address.Name} did not answer within {Step.TotalSeconds:0} s"
            : e is StoreChangedException ? e.Message
            : e is SqliteException or IOException ? $"the ledger could not be read to send it: {e.Message.TrimEnd('.')}"
            : PlantException.Of(_address, e).Message;
        var news = _state.Connected || _state.Cause is null;
        _told = false;
        _state = _state with { Connected = false, Waiting = false, Cause = cause };
        if (news)
        {
            _news.Lost(cause);
        }
    }

    private async ValueTask Leave()
    {
        var link = _link;
        _link = null;
        if (link is not null)
        {
            try
            {
                await link.DisposeAsync();
            }
            catch (Exception e) when (e is NpgsqlException or IOException or InvalidOperationException)
            {
                // A connection that is broken may not close cleanly; a new one is made.
            }
        }
    }

    private async Task<T> Timed<T>(Func<CancellationToken, Task<T>> step, CancellationToken token) =>
        await _step.ExecuteAsync(async t => await step(t), token);
}
