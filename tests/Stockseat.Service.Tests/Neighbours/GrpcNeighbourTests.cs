using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>Bad gRPC clients beside a good client of lines.</summary>
public class GrpcNeighbourTests
{
    [Fact]
    public async Task A_client_that_opens_a_hundred_streams_and_cancels_them()
    {
        await using var hood = await Neighbourhood.Start();
        using var channel = hood.BadChannel();
        var lookup = new LookupService.LookupServiceClient(channel);
        var (cancelled, served) = (0, 0);

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                using var cancel = new CancellationTokenSource();
                var calls = Enumerable.Range(0, 100)
                    .Select(_ => lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09 }, cancellationToken: cancel.Token).ResponseAsync)
                    .ToList();
                await cancel.CancelAsync();
                foreach (var call in calls)
                {
                    try
                    {
                        await call;
                        served++;
                    }
                    catch (RpcException e) when (e.StatusCode is StatusCode.Cancelled or StatusCode.ResourceExhausted or StatusCode.Unavailable)
                    {
                        cancelled++; // A client that cancels too often has its connection closed, and the calls under way on it.
                    }
                }
            }
            while (!stop.IsCancellationRequested);
        });

        Assert.True(cancelled > 0, $"{served} were served and none was cancelled");
        await hood.BadIsAnsweredAgain();
    }

    [Fact]
    public async Task A_client_that_opens_streams_and_never_ends_them()
    {
        await using var hood = await Neighbourhood.Start();
        using var channel = hood.BadChannel();
        var reflection = new global::Grpc.Reflection.V1Alpha.ServerReflection.ServerReflectionClient(channel);
        var open = Enumerable.Range(0, 100).Select(_ => reflection.ServerReflectionInfo()).ToList();
        foreach (var call in open)
        {
            await call.RequestStream.WriteAsync(new() { ListServices = "" });
        }

        await hood.GoodIsServed();

        Assert.True(await open[0].ResponseStream.MoveNext(CancellationToken.None));
        open.ForEach(call => call.Dispose());
    }

    [Fact]
    public async Task A_client_whose_messages_are_too_large()
    {
        await using var hood = await Neighbourhood.Start();
        using var channel = hood.BadChannel(largest: 8 << 20);
        var lookup = new LookupService.LookupServiceClient(channel);
        var statuses = new List<StatusCode>();

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                foreach (var length in (int[])[64 * 1024, 100_000, 512 * 1024])
                {
                    var refused = await Assert.ThrowsAsync<RpcException>(() => lookup.LocateAsync(new() { Fixture = new('a', length) }).ResponseAsync);
                    statuses.Add(refused.StatusCode);
                }
            }
            while (!stop.IsCancellationRequested);
        });

        // A client that does this too often has its connection closed, and the call under way on it.
        Assert.Equal([StatusCode.ResourceExhausted, StatusCode.ResourceExhausted, StatusCode.ResourceExhausted], statuses[..3]);
        Assert.All(statuses, s => Assert.True(s is StatusCode.ResourceExhausted or StatusCode.Unavailable, s.ToString()));
        await hood.BadIsAnsweredAgain();
    }
}
