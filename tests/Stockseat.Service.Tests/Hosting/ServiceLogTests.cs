using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using Serilog.Core;
using Serilog.Events;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>A log whose reader takes nothing, for a while or forever.</summary>
public sealed class ServiceLogTests : IDisposable
{
    private const int Held = 8;

    private readonly Stuck _stuck = new();
    private readonly FakeTimeProvider _time = new();

    public void Dispose() => _stuck.Dispose();

    [Fact]
    public async Task Logging_does_not_wait_and_the_number_of_dropped_lines_is_reported_once_the_log_flows_again()
    {
        var log = new ServiceLog(_time, to => to.Sink(_stuck), Held);
        log.Logger.Information("line {N}", 0);
        await _stuck.Taking;
        for (var i = 1; i <= Held + 5; i++)
        {
            log.Logger.Information("line {N}", i);
        }

        Assert.Equal(5, log.Drops.Count);
        _stuck.Flow();
        await log.DisposeAsync().Within("the end of the log");
        await _stuck.Ended.Within("the end of the sink");

        Assert.Contains("5 log lines were dropped, because nothing read the log fast enough (5 since the start)",
            Assert.Single(_stuck.Texts, t => t.Contains("dropped", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Equal(Enumerable.Range(0, Held + 1).Select(i => $"line {i}"), _stuck.Texts.Where(t => t.StartsWith("line ", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task The_end_waits_up_to_its_limit_and_no_longer()
    {
        var log = new ServiceLog(_time, to => to.Sink(_stuck), Held);
        log.Logger.Information("never taken");
        await _stuck.Taking;

        var ends = log.DisposeAsync().AsTask();
        Assert.False(ends.IsCompleted);
        _time.Advance(StopLimits.Log);

        await ends.Within("the end of the log");
        Assert.False(_stuck.Ended.IsCompleted);
        _stuck.Flow();
    }

    /// <summary>A sink that accepts nothing until it is released.</summary>
    private sealed class Stuck : ILogEventSink, IDisposable
    {
        private readonly ManualResetEventSlim _gate = new();
        private readonly TaskCompletionSource _taking = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private readonly TaskCompletionSource _ended = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public ConcurrentQueue<string> Texts { get; } = new();

        public Task Taking => _taking.Task.Within("the first line at the sink");

        public Task Ended => _ended.Task;

        public void Flow() => _gate.Set();

        public void Emit(LogEvent logEvent)
        {
            _taking.TrySetResult();
            _gate.Wait();
            Texts.Enqueue(logEvent.RenderMessage(CultureInfo.InvariantCulture));
        }

        public void Dispose()
        {
            _gate.Set();
            _ended.TrySetResult();
        }
    }
}
