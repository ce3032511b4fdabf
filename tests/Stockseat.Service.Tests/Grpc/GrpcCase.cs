using Google.Rpc;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

/// <summary>A service for each test, with its clients.</summary>
public abstract class GrpcCase : IAsyncLifetime
{
    private Bench? _bench;

    internal Bench Bench => _bench!;

    private protected LookupService.LookupServiceClient Lookup => new(Bench.Channel);

    private protected GaugeService.GaugeServiceClient Gauge => new(Bench.Channel);

    private protected FixtureService.FixtureServiceClient Fixtures => new(Bench.Channel);

    private protected LedgerService.LedgerServiceClient Ledger => new(Bench.Channel);

    public virtual async ValueTask InitializeAsync() => _bench = await Bench.Start();

    public async ValueTask DisposeAsync()
    {
        await Bench.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    private protected static Task<ErrorInfo> Refused<T>(AsyncUnaryCall<T> call, StatusCode status, string reason) =>
        Refused(call.ResponseAsync, status, reason);

    private protected static async Task<ErrorInfo> Refused(Task call, StatusCode status, string reason)
    {
        var e = await Assert.ThrowsAsync<RpcException>(() => call);
        var info = e.GetRpcStatus()?.GetDetail<ErrorInfo>();
        Assert.NotNull(info);
        Assert.Equal((reason, "stockseat", status), (info.Reason, info.Domain, e.StatusCode));
        return info;
    }
}
