using System.IO.Pipelines;
using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Gauges;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Lines;

/// <summary>Takes the connections of the line protocol: an unknown caller, or one connection too many, gets one line and is closed.</summary>
internal sealed class LineConnectionHandler(
    IAnswerer answerer,
    Door door,
    ClientTable clients,
    LineDeadlines deadlines,
    ReadingPorts ports,
    DoorLimits limits,
    TimeProvider time,
    ILogger<LineConnectionHandler> logger) : ConnectionHandler
{
    /// <summary>What a caller without TLS reads at the listener for TLS.</summary>
    public static ReadOnlyMemory<byte> WithoutTls { get; } =
        LineReply.Refused(null, Refusal.Of(Reason.NotPermitted, "this port speaks TLS; plain lines go to the port of Listen:Line")).Bytes;

    private readonly LogSampler _sampler = new(time);

    /// <summary>Tells a caller that is turned away why: which form it reads is not known, so it is the built-in one.</summary>
    public static async Task Refuse(ConnectionContext connection, Refusal refusal, CancellationToken late) =>
        await connection.Transport.Output.WriteAsync(LineReply.Refused(null, refusal).Bytes, late);

    /// <inheritdoc/>
    public override async Task OnConnectedAsync(ConnectionContext connection)
    {
        connection.KeepAlive();
        var remote = connection.RemoteEndPoint is IPEndPoint end ? new IPEndPoint(ClientTable.Plain(end.Address), end.Port) : null;
        var (entered, refusal) = door.Enter(remote, connection.Features.Get<CallerProof>());
        if (entered is not { } visit)
        {
            if (_sampler.Take() is { } passedOver)
            {
                Log.TurnedAway(logger, remote?.ToString(), refusal!.Text, passedOver);
            }

            await connection.Transport.Output.WriteAsync(
                LineReply.Refused(clients.Find(remote?.Address, connection.Features.Get<CallerProof>())?.Form ?? Form.Named, null, refusal!).Bytes);
            return;
        }

        using (visit)
        {
            var caller = visit.Caller;
            var conversation = new LineConversation(answerer, visit.Client, caller, time, ports);
            using var line = new LineConnection(connection, conversation, visit.Client, door, limits, time);
            line.Unreadable += (why, bytes) =>
            {
                if (_sampler.Take() is { } passedOver)
                {
                    Log.Malformed(logger, caller.Client, caller.Address, why.Info.Name, why.Text, Convert.ToHexString(bytes.Span), passedOver);
                }
            };
            await Run(line, conversation, connection.Transport.Output, caller.Address);
        }
    }

    private async Task Run(LineConnection line, LineConversation conversation, PipeWriter output, string? address)
    {
        using var watched = deadlines.Watch(line);
        try
        {
            await line.Run();
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException or OperationCanceledException)
        {
            // The other side closed the connection, or was closed.
        }
        catch (Exception e)
        {
            Log.ConversationFailed(logger, e, address);
            await output.WriteAsync(conversation.Refused(Refusal.Of(Reason.InternalFailure, "the request could not be handled")).Bytes);
        }
    }
}
