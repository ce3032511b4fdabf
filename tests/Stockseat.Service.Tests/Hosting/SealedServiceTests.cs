using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Seals;
using Stockseat.Service.Configuration;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>The whole service with a key.</summary>
public sealed class SealedServiceTests
{
    [Fact]
    public async Task A_clean_stop_is_recognised_behind_its_seal()
    {
        await using var bench = await Start();
        await bench.Restart();

        var kinds = (await Ledger(bench).ListEntriesAsync(new() { PageSize = 1000 })).Entries.Select(e => e.Kind).ToList();

        Assert.DoesNotContain(Kinds.UncleanStop, kinds);
        Assert.Equal([Kinds.ServiceStopped, Kinds.Seal, Kinds.ServiceStarted], kinds[^3..]);
        Assert.DoesNotContain(bench.Log.All, l => l.Text.StartsWith("The key has changed", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_anchor_is_the_seal_of_all_entries_that_were_unsealed()
    {
        await using var bench = await Start();
        var listed = await Fixtures(bench).ListFixturesAsync(new());
        Assert.Equal((Public(bench).Fingerprint, listed.Serial), (listed.SealKey, listed.Unsealed));

        var first = await Ledger(bench).AnchorAsync(new());
        var second = await Ledger(bench).AnchorAsync(new());

        Assert.Equal(first, second);
        Assert.Equal(listed.Serial, first.Serial);
        Assert.True(new Anchor(first.Ledger, first.Serial, first.Hash, first.At, first.Key, first.Signature).SignedBy(Public(bench)));
        Assert.Equal((first.Serial + 1, 0), ((await Fixtures(bench).ListFixturesAsync(new())).Serial,
            (await Fixtures(bench).ListFixturesAsync(new())).Unsealed));
    }

    [Fact]
    public async Task Without_a_key_an_anchor_is_the_unsigned_head_and_the_log_says_once_that_nothing_is_sealed()
    {
        await using var bench = await Bench.Start();
        var anchor = await Ledger(bench).AnchorAsync(new());
        var head = (await Ledger(bench).ListEntriesAsync(new() { After = -1 })).Entries[0];

        Assert.Equal((head.Serial, Convert.ToHexStringLower(head.Hash.Span), head.At, "", ""),
            (anchor.Serial, anchor.Hash, anchor.At, anchor.Key, anchor.Signature));
        Assert.Equal("", (await Fixtures(bench).ListFixturesAsync(new())).SealKey);
        Assert.Single(bench.Log.All, l => l.Text.StartsWith("The ledger is not sealed: name a key in Ledger:SealKey", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_anchor_is_only_for_clients_that_may_review()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new JsonArray("locate", "measure", "calibrate"));

        var refused = await Assert.ThrowsAsync<RpcException>(async () => await Ledger(bench).AnchorAsync(new()));

        Assert.Equal(StatusCode.PermissionDenied, refused.StatusCode);
    }

    [Fact]
    public async Task Another_key_is_reported_once()
    {
        await using var bench = await Start();
        await bench.Restart(() => WriteKey(bench));
        await Ledger(bench).AnchorAsync(new());
        await bench.Restart();

        Assert.Single(bench.Log.All, l => l.Text.StartsWith("The key has changed: up to entry ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_unusable_key_is_a_fault_of_the_configuration_before_anything_is_started()
    {
        await using var bench = await Start();
        await bench.Stop();
        File.Delete(KeyPath(bench));

        var fault = await Assert.ThrowsAsync<ConfigurationException>(bench.StartAnother);

        Assert.StartsWith("Ledger:SealKey: the key ", fault.Message, StringComparison.Ordinal);
    }

    internal static Task<Bench> Start() => Bench.Start(configure: s => s["Ledger"] = new JsonObject { ["SealKey"] = "seal.pem" }, prepare: WriteKey);

    internal static void WriteKey(Bench bench)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        File.Delete(KeyPath(bench));
        bench.Write("seal.pem", key.ExportPkcs8PrivateKeyPem());
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(KeyPath(bench), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    private static PublicSealKey Public(Bench bench) => PublicSealKey.FromPem(File.ReadAllText(KeyPath(bench)))!;

    private static string KeyPath(Bench bench) => Path.Combine(bench.Folder, "seal.pem");

    private static LedgerService.LedgerServiceClient Ledger(Bench bench) => new(bench.Channel);

    private static FixtureService.FixtureServiceClient Fixtures(Bench bench) => new(bench.Channel);
}
