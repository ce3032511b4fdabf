using System.Net;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.Core;
using Grpc.Health.V1;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

/// <summary>
/// A caller that is not a client of the configuration gets the same refusal whatever it calls; a client sees nothing of other clients' fixtures.
/// </summary>
public sealed class StrangerCallTests
{
    private const string HealthName = "grpc.health.v1.Health";

    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create(b => b, b => b);

    private static readonly (string Service, string Method)[] Ours =
    [
        .. new[] { LookupReflection.Descriptor, GaugeReflection.Descriptor, FixtureReflection.Descriptor, LedgerReflection.Descriptor }
            .SelectMany(f => f.Services).SelectMany(s => s.Methods).Select(m => (m.Service.FullName, m.Name)),
    ];

    private static readonly (string Service, string Method)[] Others =
    [
        (HealthName, "Check"), (HealthName, "Watch"), (HealthName, "List"), (HealthName, "Nothing"),
        ("grpc.reflection.v1.ServerReflection", "ServerReflectionInfo"), ("grpc.reflection.v1alpha.ServerReflection", "ServerReflectionInfo"),
        ("stockseat.v1.LookupService", "Nothing"), ("nothing.Nothing", "Nothing"), ("a", "b"),
    ];

    [Fact]
    public async Task A_stranger_gets_the_same_refusal_for_every_method_even_one_that_does_not_exist()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.7");
        Assert.Equal(26, Ours.Length);

        var told = new List<(StatusCode, string, string?, string)>();
        foreach (var (service, method) in (IEnumerable<(string, string)>)[.. Ours, .. Others])
        {
            told.Add(await Call(bench.Channel, service, method));
        }

        Assert.Equal(
            (StatusCode.PermissionDenied, "no client of the configuration comes from this address; if this client may ask, change Clients in the configuration",
                "NOT_PERMITTED", ""),
            Assert.Single(told.Distinct()));
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/stockseat.v1.LookupService/Locate")]
    [InlineData("/a/b")]
    public async Task A_stranger_that_does_not_speak_gRPC_learns_no_more_than_that(string path)
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.7");
        using var http = new HttpClient();

        using var reply = await http.SendAsync(
            new(HttpMethod.Get, $"http://{bench.Service.Grpc}{path}") { Version = HttpVersion.Version20,
            VersionPolicy = HttpVersionPolicy.RequestVersionExact });

        Assert.Equal((HttpStatusCode.OK, "7", ""),
            (reply.StatusCode, Assert.Single(reply.Headers.GetValues("grpc-status")), await reply.Content.ReadAsStringAsync()));
    }

    [Fact]
    public async Task Every_method_and_every_other_call_counts_towards_the_rate()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 3);

        foreach (var (service, method) in ((string, string)[])[(HealthName, "Check"), (HealthName, "List"), ("a", "b")])
        {
            _ = await Call(bench.Channel, service, method);
        }

        Assert.Equal((StatusCode.ResourceExhausted, "TOO_BUSY"), await Call(bench.Channel, "a", "b") is var told ? (told.Status, told.Reason) : default);
    }

    [Fact]
    public async Task A_client_sees_nothing_of_the_health_of_another_client_s_fixture()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Fixtures"] = new System.Text.Json.Nodes.JsonArray("rollers-3"));
        var health = new global::Grpc.Health.V1.Health.HealthClient(bench.Channel);

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await health.CheckAsync(new() { Service = "fixture/rollers-3" })).Status);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await health.CheckAsync(new())).Status);
        var told = new List<(StatusCode, string, string?)>();
        foreach (var name in (string[])["fixture/pinbed-1", "fixture/nowhere", "nowhere"])
        {
            var refused = await Assert.ThrowsAsync<RpcException>(() => health.CheckAsync(new() { Service = name }).ResponseAsync);
            told.Add((refused.StatusCode, refused.Status.Detail, refused.GetRpcStatus()?.GetDetail<ErrorInfo>()?.Reason));
            using var watch = health.Watch(new() { Service = name });
            Assert.True(await watch.ResponseStream.MoveNext(CancellationToken.None));
            Assert.Equal(HealthCheckResponse.Types.ServingStatus.ServiceUnknown, watch.ResponseStream.Current.Status);
        }

        Assert.Equal(StatusCode.NotFound, Assert.Single(told.Distinct()).Item1);
    }

    /// <summary>Calls with an empty message.</summary>
    /// <returns>The status, its text, the reason of ErrorInfo, and the names of other trailers.</returns>
    private static async Task<(StatusCode Status, string Text, string? Reason, string Others)> Call(ChannelBase channel, string service, string method)
    {
        var call = channel.CreateCallInvoker().AsyncUnaryCall(new Method<byte[], byte[]>(MethodType.Unary, service, method, Bytes, Bytes), null, new(), []);
        try
        {
            await call.ResponseAsync;
            return (StatusCode.OK, "", null, "");
        }
        catch (RpcException e)
        {
            var others = e.Trailers.Where(t => t.Key is not ("grpc-status-details-bin" or "date")).Select(t => t.Key);
            return (e.StatusCode, e.Status.Detail, e.GetRpcStatus()?.GetDetail<ErrorInfo>()?.Reason, string.Join(',', others));
        }
    }
}
