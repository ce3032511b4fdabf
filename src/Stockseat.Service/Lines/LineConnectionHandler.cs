using System.Buffers;
using System.IO.Pipelines;
using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Lines;

/// <summary>One connection of the line protocol: bytes to frames, frames to replies, in order.</summary>
internal sealed class LineConnectionHandler(IAnswerer answerer, ClientTable clients, TimeProvider time, ILogger<LineConnectionHandler> logger) : ConnectionHandler
{
    private const int BytesLogged = 16;
    private readonly LogSampler _sampler = new(time);

    /// <inheritdoc/>
    public override async Task OnConnectedAsync(ConnectionContext connection)
    {
        var remote = connection.RemoteEndPoint as IPEndPoint;
        var (input, output) = (connection.Transport.Input, connection.Transport.Output);
        if (clients.Find(remote?.Address) is not { } client)
        {
            Log.NotPermitted(logger, remote?.ToString());
            await Write(output, LineReply.Refused(null, Refusal.Of(Reason.NotPermitted, $"no client of the configuration comes from {remote?.Address}")));
            return;
        }

        // A stop takes no new line; the one being answered is still answered.
        using var stop = connection.Features.Get<IConnectionLifetimeNotificationFeature>()?.ConnectionClosedRequested.Register(() =>
        {
            input.CancelPendingRead();
            output.CancelPendingFlush(); // A client that reads nothing must not hold the stop.
        });
        var caller = client.At(remote!.Address, remote.Port);
        try
        {
            await Converse(input, output, new LineConversation(answerer, client, caller, time));
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException or OperationCanceledException)
        {
            // The other side went away.
        }
        catch (Exception e)
        {
            Log.ConversationFailed(logger, e, caller.Address);
            await Write(output, LineReply.Refused(client.Form, null, Refusal.Of(Reason.InternalFailure, "the request could not be handled")));
        }
    }

    private async Task Converse(PipeReader input, PipeWriter output, LineConversation conversation)
    {
        var framer = new LineFramer();
        while (true)
        {
            var read = await input.ReadAsync();
            var buffer = read.Buffer;
            while (true)
            {
                var kind = framer.Next(ref buffer, read.IsCompleted, out var line);
                if (kind == FrameKind.Incomplete)
                {
                    break;
                }

                var reply = kind == FrameKind.Line ? await conversation.Reply(line) : Refuse(kind, buffer, conversation);
                if (!await Write(output, reply) || kind == FrameKind.Foreign || conversation.Ended)
                {
                    input.AdvanceTo(buffer.End);
                    return;
                }
            }

            input.AdvanceTo(buffer.Start, buffer.End);
            if (read.IsCompleted || read.IsCanceled)
            {
                return;
            }
        }
    }

    private LineReply Refuse(FrameKind kind, ReadOnlySequence<byte> rest, LineConversation conversation)
    {
        var refusal = kind switch
        {
            FrameKind.TooLong => Refusal.Of(Reason.RequestTooLong, $"the line is longer than {LineFramer.LongestLine} bytes"),
            FrameKind.Unprintable => Refusal.Of(Reason.RequestMalformed, "the line holds bytes other than 0x20 to 0x7E"),
            FrameKind.CutOff => Refusal.Of(Reason.RequestMalformed, "the stream ended within a line"),
            _ => Refusal.Of(Reason.RequestMalformed, "this is not the line protocol (a zero byte, a CR without LF, HTTP or TLS); the connection closes"),
        };
        if (_sampler.Take() is { } passedOver)
        {
            Log.Malformed(logger, passedOver, refusal.Info.Name, Convert.ToHexString(rest.FirstSpan[..Math.Min(rest.FirstSpan.Length, BytesLogged)]));
        }

        return conversation.Refused(refusal);
    }

    private static async Task<bool> Write(PipeWriter output, LineReply reply)
    {
        var flushed = await output.WriteAsync(reply.Bytes);
        return !flushed.IsCompleted && !flushed.IsCanceled;
    }
}
