using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Grpc;

/// <summary>Calls that read much of the ledger.</summary>
internal sealed class HeavyCalls(HeavyWork heavy)
{
    /// <summary>Verifies, replays or reviews.</summary>
    public async Task<T> Check<T>(Client client, ServerCallContext context, Func<CancellationToken, T> work) =>
        Made(await heavy.Check(client, context.CancellationToken, work));

    /// <summary>Reads a page of entries.</summary>
    public async Task<T> Page<T>(Client client, ServerCallContext context, Func<T> work) =>
        Made(await heavy.Page(client, context.CancellationToken, work));

    private static T Made<T>((T? Made, Refusal? Refusal) outcome) => outcome.Refusal is { } refusal ? throw refusal.ToRpc() : outcome.Made!;
}
