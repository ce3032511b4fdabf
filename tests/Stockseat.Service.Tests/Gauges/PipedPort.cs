using System.IO.Pipelines;
using System.Text;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using NSubstitute;
using Serilog;
using Serilog.Extensions.Logging;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Gauges;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>One reading port over a pipe in memory, with a clock that the test sets and pushes that the test answers.</summary>
internal sealed class PipedPort : IAsyncDisposable
{
    private readonly SerilogLoggerFactory _loggers;
    private readonly CancellationTokenSource _stop = new();
    private Pipe _pipe;

    public PipedPort(ReadingPortSettings? settings = null)
    {
        _loggers = new(new LoggerConfiguration().MinimumLevel.Information().WriteTo.Sink(Log).CreateLogger(), dispose: true);
        Logger = _loggers.CreateLogger("port");
        Asked.Shown.Returns(LengthUnit.Millimetre);
        Asked.Ask(Arg.Any<Ask>()).Returns(call =>
        {
            var done = new TaskCompletionSource<AskOutcome>();
            Pushes.Add(new(call.Arg<Ask>(), done));
            return done.Task;
        });
        Asked.Situation.Returns(_ => Situation);
        Asked.Serial.Returns(_ => Serial);
        Port = new(settings ?? Usual, Asked, Time, Logger, _stop.Token);
        (_pipe, Ended) = Connected();
    }

    /// <summary>Two readings of a gauge with a decimal comma; lines are used at once, however closely they follow each other.</summary>
    public static ReadingPortSettings Usual { get; } = new()
    {
        Name = "bench-gauge", Gauge = "bench-2", Fixture = "pinbed-1", Listen = new(0, 0), Unit = "mm", DecimalMark = ',', Settle = TimeSpan.Zero,
        Apart = TimeSpan.Zero,
        Pattern = LinePattern.Parse("(?<lot>L[0-9])? ?(?<reading>[-+0-9.,]+)", out _)!,
    };

    public FakeTimeProvider Time { get; } = new();

    public Bench.Sink Log { get; } = new();

    public Microsoft.Extensions.Logging.ILogger Logger { get; }

    public IAnswerer Asked { get; } = Substitute.For<IAnswerer>();

    public ReadingPort Port { get; }

    /// <summary>The current situation.</summary>
    public Situation Situation { get; set; } = Situation.Empty;

    /// <summary>The ledger's last entry.</summary>
    public long Serial { get; set; } = 1;

    public List<PortPush> Pushes { get; } = [];

    /// <summary>Completes when the newest connection ends.</summary>
    public Task Ended { get; private set; }

    public string? LastCause => Port.Book.Status.LastCause;

    public List<string> Logged => [.. Log.All.Select(e => e.Text)];

    /// <summary>How often the port counted this; 0 when it never happened.</summary>
    public long Count(string what) => Port.Book.Status.Counts.SingleOrDefault(c => c.Key == what).Value;

    /// <summary>Bytes from the gauge. When it returns, the port has taken them.</summary>
    public async Task Send(string text) => await _pipe.Writer.WriteAsync(Encoding.Latin1.GetBytes(text)).Within("the reading of the bytes by the port");

    /// <summary>Bytes from the gauge, one by one, for as long as it is connected.</summary>
    public async Task SendEach(string text)
    {
        for (var i = 0; i < text.Length && !Ended.IsCompleted; i++)
        {
            await Send(text[i].ToString());
        }
    }

    public void Close() => _pipe.Writer.Complete();

    /// <summary>The gauge disconnects, and comes back.</summary>
    public async Task Reconnect()
    {
        Close();
        await Ended.Within("the end of the connection");
        (_pipe, Ended) = Connected();
    }

    public void Stop() => _stop.Cancel();

    /// <summary>Ends a push with an entry.</summary>
    public void Accept(int index) => Pushes[index].Done.SetResult(AskOutcome.Of(new ServiceStoppedBody()));

    /// <summary>Ends a push with a refusal.</summary>
    public void Refuse(int index, Reason reason) => Pushes[index].Done.SetResult(AskOutcome.Of(Refusal.Of(reason, "here")));

    private (Pipe, Task) Connected()
    {
        var pipe = new Pipe(new(null, PipeScheduler.Inline, PipeScheduler.Inline, useSynchronizationContext: false));
        return (pipe, Port.Read(pipe.Reader, "127.0.0.1:5", spoke: null, _stop.Token));
    }

    public async ValueTask DisposeAsync()
    {
        _pipe.Writer.Complete();
        await Task.WhenAny(Ended).Within("the end of the connection");
        _stop.Dispose();
        _loggers.Dispose();
        Assert.Empty(Log.Errors);
    }
}

/// <summary>What a port asked, to be answered by the test.</summary>
internal sealed record PortPush(Ask Any, TaskCompletionSource<AskOutcome> Done)
{
    /// <summary>The push of readings.</summary>
    public MeasureAsk Ask => Assert.IsType<MeasureAsk>(Any);
}
