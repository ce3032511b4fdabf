using Microsoft.AspNetCore.Connections;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Grpc;

/// <summary>Refuses the first call of somebody who is no client.</summary>
internal static class StrangersCall
{
    /// <summary>Waits for the first call, and answers it with the refusal.</summary>
    public static Task Refuse(ConnectionContext connection, Refusal refusal, CancellationToken late) =>
        StrangersRequest.Answer(connection, 200, refusal.Headers(), ReadOnlyMemory<byte>.Empty, late);
}
