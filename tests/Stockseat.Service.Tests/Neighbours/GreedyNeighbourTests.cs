using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>A client that asks for as much as it may: many connections, or many of the heaviest calls.</summary>
public class GreedyNeighbourTests
{
    private const int Connections = 1000;
    private const int Pipelined = 16;
    private const int Rounds = 2;
    private const int HeavyCalls = 64;

    [Fact]
    public async Task A_client_with_a_thousand_connections_that_pipelines_on_each()
    {
        await using var hood = await Neighbourhood.Start(bad => bad["Rate"] = 1_000_000);
        var bad = new List<Support.LineClient>();
        for (var i = 0; i < Connections; i++)
        {
            bad.Add(await hood.Bad());
        }

        var asks = string.Concat(Enumerable.Repeat("locate fixture=pinbed-1 diameter=90mm\n", Pipelined));
        var (answered, refused) = (0, 0);
        await hood.GoodIsServedWhile(stop => Task.WhenAll(bad.Select(async line =>
        {
            for (var i = 0; i < Rounds; i++)
            {
                await line.Send(asks);
                for (var k = 0; k < Pipelined; k++)
                {
                    var reply = (await line.Read())!;
                    _ = reply.StartsWith("ok ", StringComparison.Ordinal) ? Interlocked.Increment(ref answered) : Interlocked.Increment(ref refused);
                    Assert.True(reply.StartsWith("ok ", StringComparison.Ordinal)
                        || reply.Contains("text=\"client neighbour has 2048 asks waiting, which is the limit for one client;", StringComparison.Ordinal),
                        reply);
                }
            }
        })));

        Assert.Equal(Connections * Pipelined * Rounds, answered + refused);
        Assert.True(answered > 0 && refused > 0, $"{answered} answered, {refused} refused: the client's share was never full");
        bad.ForEach(line => line.Dispose());
    }

    [Fact]
    public async Task A_client_that_has_the_ledger_checked_again_and_again()
    {
        await using var hood = await Neighbourhood.Start(bad => bad["Rate"] = 1_000_000);
        using var channel = hood.BadChannel();
        var ledger = new LedgerService.LedgerServiceClient(channel);
        var (done, refused) = (0, 0);

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                var calls = Enumerable.Range(0, HeavyCalls).Select(i => (i % 3) switch
                {
                    0 => ledger.VerifyAsync(new()).ResponseAsync,
                    1 => ledger.ReplayAsync(new()).ResponseAsync,
                    _ => (Task)ledger.ReviewAsync(new() { Serial = 1 }).ResponseAsync,
                }).ToList();
                foreach (var call in calls)
                {
                    try
                    {
                        await call;
                        done++;
                    }
                    catch (RpcException e) when (e.StatusCode == StatusCode.ResourceExhausted)
                    {
                        Assert.Contains("checks and reviews of the ledger are running", e.Status.Detail, StringComparison.Ordinal);
                        refused++;
                    }
                }
            }
            while (!stop.IsCancellationRequested || refused == 0);
        });

        Assert.True(done > 0, $"none was done and {refused} were refused");
        Assert.Equal(refused, await hood.TurnedAway());
    }
}
