using System.Text.Json.Nodes;
using Grpc.Health.V1;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;
using Status = Grpc.Health.V1.HealthCheckResponse.Types.ServingStatus;

namespace Stockseat.Service.Tests.Certificates;

/// <summary>What a running service tells about its certificate.</summary>
public sealed class RunningServiceTests
{
    [Fact]
    public async Task List_and_health_tell_the_certificate_and_what_is_wrong_with_changed_files()
    {
        using var shop = new TestShop();
        shop.Issue("service", TestShop.Server, days: 10);
        await using var bench = await Bench.Start(configure: s =>
            s["Tls"] = new JsonObject { ["Certificate"] = shop.Pem("service"), ["Key"] = shop.Key("service") });
        using var channel = LimitedChannel.Secured(bench.Service.Grpc);
        var (fixtures, health) = (new FixtureService.FixtureServiceClient(channel), new global::Grpc.Health.V1.Health.HealthClient(channel));

        var told = (await fixtures.ListFixturesAsync(new())).Certificate;
        Assert.Equal(("CN=service", shop.Pin("service"), 9), (told.Subject, told.Pin, told.DaysLeft));
        Assert.Equal($"the certificate {shop.Pem("service")} ends in 9 days; issue a new one", told.Advice);
        Assert.Equal(Status.Serving, (await health.CheckAsync(new() { Service = "certificate" })).Status);

        File.WriteAllText(shop.Key("service"), "no key");
        await Deadline.Until(() => health.Check(new() { Service = "certificate" }).Status == Status.NotServing, "the service sees the changed key");

        Assert.StartsWith($"the changed files are not used: Tls:Key: {shop.Key("service")} is not the key of", (await fixtures.ListFixturesAsync(new()))
            .Certificate.Advice, StringComparison.Ordinal);
        Assert.Equal(Status.Serving, (await health.CheckAsync(new())).Status); // It answers as before.
        Assert.Contains(bench.Log.All, e => e.Text.Contains("is not used, and the one before stays", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_TLS_nothing_is_told_of_a_certificate()
    {
        await using var bench = await Bench.Start();

        Assert.Null((await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Certificate);
        var refused = await Assert.ThrowsAsync<global::Grpc.Core.RpcException>(() =>
            new global::Grpc.Health.V1.Health.HealthClient(bench.Channel).CheckAsync(new() { Service = "certificate" }).ResponseAsync);
        Assert.Equal(global::Grpc.Core.StatusCode.NotFound, refused.StatusCode);
    }
}
