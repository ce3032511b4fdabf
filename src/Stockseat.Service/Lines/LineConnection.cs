using System.Buffers;
using System.IO.Pipelines;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Lines;

/// <summary>
/// One connection of the line protocol. It takes the lines that have come, up to the depth of pipelining, starts them in order, and
/// writes the replies in the same order; only then does it read on. Every wait for the other side has a deadline.
/// </summary>
public sealed class LineConnection : IDisposable
{
    private const int BytesLogged = 16;

    /// <summary>How much of an endless line is skipped before the connection closes.</summary>
    private const int MostPassedOver = 64 * 1024;

    private readonly ConnectionContext _connection;
    private readonly LineConversation _conversation;
    private readonly Client _client;
    private readonly Door _door;
    private readonly DoorLimits _limits;
    private readonly TimeProvider _time;
    private readonly LineFramer _framer = new();
    private readonly List<Task<LineReply>> _underWay = [];
    private readonly CancellationTokenRegistration _stop;
    private readonly long _connected;
    private bool _greeted;
    private bool _understood;
    private bool _closing;
    private volatile bool _stopping;
    private long? _begun;
    private Wait? _wait;

    /// <summary>A conversation over a connection.</summary>
    /// <param name="connection">The connection.</param>
    /// <param name="conversation">Turns lines into replies.</param>
    /// <param name="client">Whose it is.</param>
    /// <param name="door">Counts requests, and knows the client's rate.</param>
    /// <param name="limits">The deadlines.</param>
    /// <param name="time">The clock.</param>
    public LineConnection(ConnectionContext connection, LineConversation conversation, Client client, Door door, DoorLimits limits, TimeProvider time)
    {
        (_connection, _conversation, _client, _door, _limits, _time) = (connection, conversation, client, door, limits, time);
        _connected = time.GetTimestamp();
        conversation.Malformed += refusal =>
        {
            _closing |= !_understood;
            Count(TurnedAway.Malformed, refusal, default);
        };

        // A stop takes no new line; lines under way are still answered. A client that reads nothing must not delay the stop.
        _stop = connection.Features.Get<IConnectionLifetimeNotificationFeature>()?.ConnectionClosedRequested.Register(() =>
        {
            _stopping = true;
            Input.CancelPendingRead();
            Output.CancelPendingFlush();
        }) ?? default;
    }

    /// <summary>Called for a line that is not a request: with the cause, and with the first bytes when it is not a line either.</summary>
    public event Action<Refusal, ReadOnlyMemory<byte>>? Unreadable;

    private PipeReader Input => _connection.Transport.Input;

    private PipeWriter Output => _connection.Transport.Output;

    /// <inheritdoc/>
    public void Dispose() => _stop.Dispose();

    /// <summary>Ends a wait whose deadline has passed. Called by another thread, again and again.</summary>
    public void Look()
    {
        if (Volatile.Read(ref _wait) is not { } wait || !Passed(wait))
        {
            return;
        }

        if (wait.Why == TurnedAway.Reply)
        {
            _door.Count(TurnedAway.Reply);
            Volatile.Write(ref _wait, null);
            _connection.Abort(new ConnectionAbortedException("the client did not take its replies in time"));
        }
        else
        {
            Input.CancelPendingRead();
        }
    }

    /// <summary>Runs until either side ends it.</summary>
    public async Task Run()
    {
        while (true)
        {
            var read = await Read();
            var buffer = read.Buffer;
            var goOn = true;
            while (goOn && Take(ref buffer, read.IsCompleted))
            {
                goOn = await Reply() && !_stopping;
            }

            if (goOn && read.IsCanceled && Volatile.Read(ref _wait) is { } wait && Passed(wait))
            {
                await SendAway(wait, buffer);
                goOn = false;
            }

            Input.AdvanceTo(buffer.Start, buffer.End);
            if (!goOn || read.IsCompleted || _stopping || _framer.PassedOver > MostPassedOver)
            {
                return;
            }
        }
    }

    private async ValueTask<ReadResult> Read()
    {
        Wait wait = _begun is { } begun ? new(TurnedAway.Line, begun, _limits.Line)
            : _greeted ? new(TurnedAway.Idle, _time.GetTimestamp(), _limits.Idle)
            : new(TurnedAway.FirstLine, _connected, _limits.FirstLine);
        Volatile.Write(ref _wait, wait);
        return await Input.ReadAsync();
    }

    /// <summary>Takes complete lines from the front and starts them; false when there is none.</summary>
    private bool Take(ref ReadOnlySequence<byte> buffer, bool ended)
    {
        var kind = FrameKind.Incomplete;
        while (_underWay.Count < _limits.Pipelined && !_conversation.Ended && !_closing
            && (kind = _framer.Next(ref buffer, ended, out var line)) != FrameKind.Incomplete)
        {
            _greeted = true;
            _begun = null;
            _underWay.Add(kind != FrameKind.Line ? Task.FromResult(Refuse(kind, buffer))
                : _door.Ask(_client) is { } refusal ? Task.FromResult(_conversation.Refused(line, refusal))
                : Begin(line));
        }

        if (kind == FrameKind.Incomplete && (buffer.Length > 0 || _framer.PassedOver > 0))
        {
            _begun ??= _time.GetTimestamp();
        }

        return _underWay.Count > 0;
    }

    /// <summary>
    /// Starts a line. A connection whose first line is not a request speaks another protocol, and its next lines may come from anybody: it is closed. Once a
    /// line was understood, a line that is not a request is refused, and the next one is read.
    /// </summary>
    private Task<LineReply> Begin(string line)
    {
        var reply = _conversation.Reply(line); // For a first line it is known at once whether it is a request.
        _understood |= !_closing;
        return reply;
    }

    /// <summary>Writes the replies in order; those that are ready do not wait for later ones. False: the connection is over.</summary>
    private async ValueTask<bool> Reply()
    {
        for (var i = 0; i < _underWay.Count; i++)
        {
            (await _underWay[i]).WriteTo(Output);
            if (i + 1 < _underWay.Count && _underWay[i + 1].IsCompletedSuccessfully)
            {
                continue;
            }

            Volatile.Write(ref _wait, new(TurnedAway.Reply, _time.GetTimestamp(), _limits.Reply));
            var flushed = await Output.FlushAsync();
            Volatile.Write(ref _wait, null);
            if (flushed.IsCanceled)
            {
                await WriteRest(i + 1);
            }

            if (flushed.IsCompleted || flushed.IsCanceled)
            {
                return false;
            }
        }

        _underWay.Clear();
        return !_conversation.Ended && !_closing;
    }

    /// <summary>At a stop: the replies under way are still written, and nothing waits for the client any more.</summary>
    private async ValueTask WriteRest(int from)
    {
        for (var i = from; i < _underWay.Count; i++)
        {
            (await _underWay[i]).WriteTo(Output);
        }

        Output.CancelPendingFlush();
        await Output.FlushAsync();
    }

    private LineReply Refuse(FrameKind kind, ReadOnlySequence<byte> rest)
    {
        _closing |= kind == FrameKind.Foreign || !_understood;
        var (why, refusal) = kind switch
        {
            FrameKind.TooLong => (TurnedAway.TooLong, Refusal.Of(Reason.RequestTooLong, $"the line is longer than {LineFramer.LongestLine} bytes")),
            FrameKind.Unprintable => (TurnedAway.Malformed, Refusal.Of(Reason.RequestMalformed, "the line has bytes other than 0x20 to 0x7E")),
            FrameKind.CutOff => (TurnedAway.Malformed, Refusal.Of(Reason.RequestMalformed, "the stream ended within a line")),
            _ => (TurnedAway.Foreign, Refusal.Of(Reason.RequestMalformed,
                "this is not the line protocol (a zero byte, a CR without LF, HTTP or TLS); the connection closes")),
        };
        Count(why, refusal, rest.First[..Math.Min(rest.First.Length, BytesLogged)]);
        return LineReply.Refused(_client.Form, null, refusal);
    }

    private void Count(TurnedAway why, Refusal refusal, ReadOnlyMemory<byte> bytes)
    {
        _door.Count(why);
        Unreadable?.Invoke(refusal, bytes);
    }

    private bool Passed(Wait wait) => _time.GetElapsedTime(wait.Since) >= wait.Limit;

    /// <summary>A line that was begun gets one refusal. Without a line nothing is sent: it could be taken for the reply to the next request.</summary>
    private async Task SendAway(Wait wait, ReadOnlySequence<byte> rest)
    {
        _door.Count(wait.Why);
        if (rest.Length > 0)
        {
            var refusal = Refusal.Of(Reason.RequestMalformed, $"the line was not ended in time ({wait.Limit.TotalSeconds} s); the connection closes");
            LineReply.Refused(_client.Form, null, refusal).WriteTo(Output);
            Volatile.Write(ref _wait, new(TurnedAway.Reply, _time.GetTimestamp(), _limits.Reply));
            await Output.FlushAsync();
        }
    }

    private sealed record Wait(TurnedAway Why, long Since, TimeSpan Limit);
}
