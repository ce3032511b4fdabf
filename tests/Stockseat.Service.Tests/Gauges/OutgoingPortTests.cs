using System.IO.Pipelines;
using System.Text;
using System.Threading.Channels;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>The connection is made by hand and the clock is set by the test: a wait of the port is a timer that it made.</summary>
public sealed class OutgoingPortTests : IAsyncDisposable
{
    private readonly PipedPort _piped = new(PipedPort.Usual with { Listen = null, Connect = new("gauge", 4001) });
    private readonly Channel<TaskCompletionSource<Stream>> _calls = Channel.CreateUnbounded<TaskCompletionSource<Stream>>();
    private readonly CancellationTokenSource _stop = new();
    private readonly Timers _time = new();
    private readonly Task _running;

    public OutgoingPortTests()
    {
        var port = new OutgoingPort(
            _piped.Port,
            async stop =>
            {
                var call = new TaskCompletionSource<Stream>(TaskCreationOptions.RunContinuationsAsynchronously);
                _calls.Writer.TryWrite(call);
                return await call.Task.WaitAsync(stop);
            },
            _time,
            _piped.Logger);
        _running = Task.Run(() => port.Run(_stop.Token));
    }

    private List<string> Warnings => [.. _piped.Logged.Where(t => t.Contains("has no connection", StringComparison.Ordinal))];

    [Fact]
    public async Task After_five_thousand_attempts_the_port_still_calls_at_least_every_half_minute()
    {
        for (var i = 0; i < 5_000; i++)
        {
            (await Call()).SetException(new IOException("refused"));
            var wait = await _time.Next();
            Assert.InRange(wait, TimeSpan.FromMilliseconds(250), Backoff.Longest);
            _time.Advance(wait);
        }

        await Call();
        Assert.Equal(5_000, _piped.Count("no-connection"));
    }

    [Fact]
    public async Task A_gauge_that_is_away_for_a_minute_leaves_one_line_in_the_log_and_then_one_a_minute()
    {
        var begun = _time.GetTimestamp();
        await Fail();
        Assert.Equal("no-connection: refused", _piped.LastCause);
        while (_time.GetElapsedTime(begun) < TimeSpan.FromSeconds(60))
        {
            Assert.Contains("attempt 1, ", Assert.Single(Warnings), StringComparison.Ordinal);
            await Fail();
        }

        await Fail();
        Assert.Equal(2, Warnings.Count);
        Assert.Contains("\"gauge:4001\"", Warnings[1], StringComparison.Ordinal);
        Assert.Equal(PortState.Connecting, _piped.Port.Book.Status.State);
    }

    [Fact]
    public async Task A_lost_connection_is_logged_and_made_again_and_its_return_is_silent()
    {
        var pipe = new Pipe();
        (await Call()).SetResult(pipe.Reader.AsStream());
        await pipe.Writer.WriteAsync(Encoding.ASCII.GetBytes("92,40\n92,4"));
        await Deadline.Until(() => _piped.Count("readings") == 1, "a reading");
        Assert.Equal((PortState.Connected, 0), (_piped.Port.Book.Status.State, Warnings.Count));

        _time.Advance(OutgoingPort.Steady);
        await pipe.Writer.CompleteAsync();
        var again = await Call(); // At once, since the connection had been stable.
        Assert.Contains("the gauge closed the connection", Assert.Single(Warnings), StringComparison.Ordinal);
        Assert.Equal((PortState.Connecting, 1), (_piped.Port.Book.Status.State, _piped.Count("cut-off")));

        again.SetResult(new Pipe().Reader.AsStream());
        await Deadline.Until(() => _piped.Port.Book.Status.State == PortState.Connected, "the connection");
        Assert.Single(Warnings);
    }

    [Fact]
    public async Task A_gauge_that_closes_each_connection_at_once_is_only_called_after_a_wait()
    {
        for (var i = 0; i < 3; i++)
        {
            (await Call()).SetResult(new MemoryStream());
            var wait = await _time.Next();
            Assert.False(_calls.Reader.TryPeek(out _));
            _time.Advance(wait);
        }

        await Call();
        Assert.Equal(3, _piped.Count("no-connection"));
    }

    [Fact]
    public async Task A_device_with_another_protocol_is_disconnected_and_called_again_after_a_wait()
    {
        (await Call()).SetResult(new MemoryStream(Encoding.ASCII.GetBytes("GET / HTTP/1.1\r\n\r\n86,00\r\n86,00\r\n")));
        _time.Advance(await _time.Next());
        await Call();

        Assert.Equal((1, 1, 0), (_piped.Count("foreign"), _piped.Count("no-connection"), _piped.Count("lines")));
        Assert.Contains("another protocol was spoken", Assert.Single(Warnings), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stop_ends_a_call()
    {
        await Call();
        await Stop(warnings: 0);
    }

    [Fact]
    public async Task A_stop_ends_a_wait()
    {
        (await Call()).SetException(new IOException("refused"));
        await _time.Next();
        await Stop(warnings: 1);
    }

    [Fact]
    public async Task A_stop_ends_a_connection()
    {
        (await Call()).SetResult(new Pipe().Reader.AsStream());
        await Deadline.Until(() => _piped.Port.Book.Status.State == PortState.Connected, "the connection");
        await Stop(warnings: 0);
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _running.Within("the port's end");
        await _piped.DisposeAsync();
        _stop.Dispose();
    }

    private async Task<TaskCompletionSource<Stream>> Call() => await _calls.Reader.ReadAsync().Within("a call to the gauge");

    private async Task Stop(int warnings)
    {
        await _stop.CancelAsync();
        await _running.Within("the port's end");
        Assert.Equal(warnings, Warnings.Count);
    }

    private async Task Fail()
    {
        (await Call()).SetException(new IOException("refused"));
        _time.Advance(await _time.Next());
    }

    /// <summary>Announces each timer that was made, so that the clock is never set before there is one.</summary>
    private sealed class Timers : FakeTimeProvider
    {
        private readonly Channel<TimeSpan> _waits = Channel.CreateUnbounded<TimeSpan>();

        /// <summary>How long the next timer waits.</summary>
        public Task<TimeSpan> Next() => _waits.Reader.ReadAsync().Within("a timer of the port");

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            var timer = base.CreateTimer(callback, state, dueTime, period);
            _waits.Writer.TryWrite(dueTime);
            return timer;
        }
    }
}
