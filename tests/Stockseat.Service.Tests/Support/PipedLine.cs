using System.IO.Pipelines;
using System.Text;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Time.Testing;
using NSubstitute;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Lines;

namespace Stockseat.Service.Tests.Support;

/// <summary>
/// One line connection over pipes in memory, with a clock that the test sets and asks that the test answers: nothing depends on the speed of the machine.
/// </summary>
internal sealed class PipedLine : IAsyncDisposable
{
    private readonly Pipe _in = new(Inline(pause: 64 * 1024));
    private readonly Pipe _out = new(Inline(pause: 400));
    private readonly Connection _connection;
    private readonly LineConnection _line;

    public PipedLine(DoorLimits limits, Client? client = null)
    {
        Asked.Shown.Returns(LengthUnit.Millimetre);
        Asked.Ask(Arg.Any<Ask>()).Returns(call =>
        {
            var done = new TaskCompletionSource<AskOutcome>();
            UnderWay.Add((call.Arg<Ask>(), done));
            return done.Task;
        });
        Asked.Doubt(Arg.Any<Ask>(), Arg.Any<Refusal>()).Returns(call => call.Arg<Refusal>());
        client ??= Bench.Client;
        Door = new(limits, null!);
        _connection = new(_in, _out);
        _line = new(_connection, new(Asked, client, new("bench", "demo", "127.0.0.1:5"), Time), client, Door, limits, Time);
        Ended = _line.Run();
    }

    public FakeTimeProvider Time { get; } = new();

    public IAnswerer Asked { get; } = Substitute.For<IAnswerer>();

    public Door Door { get; }

    /// <summary>The asks that were started, each with the source that ends it.</summary>
    public List<(Ask Ask, TaskCompletionSource<AskOutcome> Done)> UnderWay { get; } = [];

    public Task Ended { get; }

    public bool Aborted => _connection.Aborted;

    public TurnedAway? Counted => Door.Counts.Select(c => (TurnedAway?)c.Why).SingleOrDefault();

    /// <summary>Bytes from the client. When it returns, the connection has read them: it waits for more, or for an ask.</summary>
    public async Task Send(string text) => await _in.Writer.WriteAsync(Encoding.Latin1.GetBytes(text)).Within("the reading of the bytes by the connection");

    public void HalfClose() => _in.Writer.Complete();

    /// <summary>Time passes, and the deadlines are checked.</summary>
    public void Pass(TimeSpan time)
    {
        Time.Advance(time);
        _line.Look();
    }

    /// <summary>Ends the ask of that number with a refusal that names it.</summary>
    public void End(int index) => UnderWay[index].Done.SetResult(AskOutcome.Of(Refusal.Of(Reason.TooBusy, $"number {index}")));

    /// <summary>The bytes that have arrived for the client, removed from the pipe.</summary>
    public string Take()
    {
        if (!_out.Reader.TryRead(out var read))
        {
            return "";
        }

        var text = Encoding.ASCII.GetString(read.Buffer);
        _out.Reader.AdvanceTo(read.Buffer.End);
        return text;
    }

    public async ValueTask DisposeAsync()
    {
        _in.Writer.Complete();
        UnderWay.ForEach(a => a.Done.TrySetResult(AskOutcome.Of(Refusal.Of(Reason.TooBusy, ""))));
        _out.Reader.Complete();
        await Task.WhenAny(Ended).Within("the end of the connection");
        _line.Dispose();
        Door.Dispose();
    }

    private static PipeOptions Inline(int pause) =>
        new(null, PipeScheduler.Inline, PipeScheduler.Inline, pauseWriterThreshold: pause, resumeWriterThreshold: pause / 2, useSynchronizationContext: false);

    private sealed class Connection(Pipe input, Pipe output)
        : DefaultConnectionContext("piped", new Duplex(input.Reader, output.Writer), new Duplex(input.Reader, output.Writer))
    {
        public bool Aborted { get; private set; }

        public override void Abort(ConnectionAbortedException abortReason)
        {
            Aborted = true;
            output.Reader.Complete(abortReason);
        }
    }

    private sealed record Duplex(PipeReader Input, PipeWriter Output) : IDuplexPipe;
}
