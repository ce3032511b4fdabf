using Grpc.Core;
using Microsoft.Extensions.Hosting;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Clients;
using Stockseat.Service.Ledgers;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>
/// Sends entries as they are committed. Nothing is stored for a watcher: a commit wakes it, it reads on from its place in short
/// pieces, and waits only for its client.
/// </summary>
internal sealed class LedgerWatch(LedgerSettings ledger, LedgerWriter writer, Door door, IHostApplicationLifetime lifetime)
{
    /// <summary>How many watches all clients together may have at once.</summary>
    internal const int Most = 64;

    private const int LongestPiece = 200;

    /// <summary>The time that a client has, when the service stops, to take what is being sent; then it is cut off.</summary>
    private static readonly TimeSpan Grace = TimeSpan.FromMilliseconds(250);

    private readonly List<Client> _running = [];

    /// <summary>Runs until the client goes, or the service stops.</summary>
    /// <param name="above">Only entries above this serial; null: from now on.</param>
    /// <param name="filter">Which entries.</param>
    /// <param name="stream">Where they go.</param>
    /// <param name="client">Who watches.</param>
    /// <param name="context">The call.</param>
    public async Task Run(long? above, EntryFilter filter, IServerStreamWriter<WatchResponse> stream, Client client, ServerCallContext context)
    {
        var stopping = lifetime.ApplicationStopping;
        Begin(client);
        try
        {
            await Follow(above ?? writer.Serial, filter, stream, context, stopping);
        }
        catch (Exception e) when (
            e is OperationCanceledException or InvalidOperationException or IOException && context.CancellationToken.IsCancellationRequested)
        {
            // The client has gone; there is nobody to tell.
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested)
        {
            throw Refusal.Of(Reason.ShuttingDown, "the service is stopping").ToRpc();
        }
        finally
        {
            lock (_running)
            {
                _running.Remove(client);
            }
        }
    }

    private void Begin(Client client)
    {
        lock (_running)
        {
            var own = _running.Count(c => c == client);
            if (own >= client.Watches || _running.Count >= Most)
            {
                door.Count(TurnedAway.TooBusy);
                var running = own >= client.Watches ? $"client {client.Name} has {own}" : $"there are {_running.Count}";
                throw new Refusal(Reason.TooBusy, $"{running} watches of the ledger, which is the limit; end one, or page through ListEntries").ToRpc();
            }

            _running.Add(client);
        }
    }

    private async Task Follow(long end, EntryFilter filter, IServerStreamWriter<WatchResponse> stream, ServerCallContext context, CancellationToken stopping)
    {
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken, stopping);
        using var late = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        await using var stop = stopping.Register(() => late.CancelAfter(Grace));
        var reader = LedgerReader.Open(ledger.Data);
        try
        {
            await context.WriteResponseHeadersAsync(Metadata.Empty);
            while (true)
            {
                var (more, head) = (writer.NextCommit, writer.Serial); // in this order: nothing is missed in between
                if (reader.First != writer.Situation.Begins)
                {
                    reader.Dispose();
                    reader = LedgerReader.Open(ledger.Data); // The ledger rolled over.
                }

                for (; end < head; ends.Token.ThrowIfCancellationRequested())
                {
                    var piece = reader.Piece(end, head, LongestPiece, filter);
                    foreach (var row in piece.Rows)
                    {
                        ends.Token.ThrowIfCancellationRequested();
                        await stream.WriteAsync(new() { Entry = EntryMessages.Of(row) }, late.Token);
                    }

                    end = piece.End;
                }

                await more.WaitAsync(ends.Token);
            }
        }
        finally
        {
            reader.Dispose();
        }
    }
}
