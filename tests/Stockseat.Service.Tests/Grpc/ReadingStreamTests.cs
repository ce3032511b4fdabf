using System.Text.Json.Nodes;
using Grpc.Core;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class ReadingStreamTests : GrpcCase
{
    private static readonly RecordReadingsRequest First =
        new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Gauge = "bench-2", Lot = "A1077", Tag = "7", RequestId = "s-1", Unit = "mm" };

    [Fact]
    public async Task A_stream_of_readings_is_one_push_with_their_mean()
    {
        var measured = await Push(First, new() { ReadingsMetres = { 0.09245, 0.09241 } });
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", Lot = "A1077" });

        Assert.Equal(0.09242, measured.DiameterMetres, 1e-12);
        Assert.Equal((measured.Serial, measured.DiameterMetres), (answer.Measurement, answer.DiameterMetres));
        var entry = Assert.Single(await Measurements());
        Assert.Equal("7", entry.Tag);
        Assert.Contains("\"readings\":[0.0924,0.09245,0.09241],\"spread\":5E-05,\"unit\":\"mm\",\"gauge\":\"bench-2\",\"agreement\":0.0001,\"lot\":\"A1077\"",
            entry.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Later_messages_leave_the_other_fields_empty_or_repeat_them()
    {
        await Push(First, First, new() { ReadingsMetres = { 0.0924 } });

        foreach (var other in new RecordReadingsRequest[]
        {
            new() { Fixture = "rollers-3" }, new() { Gauge = "bench-3" }, new() { Lot = "B" }, new() { Tag = "8" }, new() { RequestId = "s-2" },
            new() { Unit = "in" },
        })
        {
            other.ReadingsMetres.Add(0.0924);
            await Refused(Push(First, other), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        }

        Assert.Single(await Measurements());
    }

    [Fact]
    public async Task A_malformed_stream_is_refused_and_writes_nothing()
    {
        await Refused(Push(), StatusCode.InvalidArgument, "DIAMETER_MISSING");
        await Refused(Push(First, new()), StatusCode.InvalidArgument, "DIAMETER_MISSING");
        await Refused(Push(First, new() { ReadingsMetres = { -1 } }), StatusCode.InvalidArgument, "DIAMETER_MALFORMED");
        await Refused(Push(new RecordReadingsRequest { ReadingsMetres = { 0.0924 } }), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Push(First, new() { ReadingsMetres = { Enumerable.Repeat(0.0924, 100) } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.Empty(await Measurements());

        await Push(First, new() { ReadingsMetres = { Enumerable.Repeat(0.0924, 99) } });
    }

    [Fact]
    public async Task Readings_that_disagree_are_refused_as_in_one_message() =>
        await Refused(Push(First, new() { ReadingsMetres = { 0.0926 } }), StatusCode.FailedPrecondition, "READINGS_DISAGREE");

    [Fact]
    public async Task A_retry_gets_the_first_outcome_and_another_stream_with_its_id_is_refused()
    {
        var measured = await Push(First);

        Assert.Equal(measured, await Push(First));
        Assert.Equal(measured.Serial, (await Gauge.RecordAsync(new()
        {
            Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Gauge = "bench-2", Lot = "A1077", RequestId = "s-1",
        })).Serial);
        await Refused(Push(First, First), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.Single(await Measurements());
    }

    [Fact]
    public async Task A_stream_that_breaks_off_writes_nothing()
    {
        using var gone = new CancellationTokenSource();
        using var call = Gauge.RecordReadings(cancellationToken: gone.Token);
        await call.RequestStream.WriteAsync(First);
        await gone.CancelAsync();
        Assert.Equal(StatusCode.Cancelled, (await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync)).StatusCode);

        await Bench.Restart(); // a stop lets calls under way finish
        Assert.Empty(await Measurements());
    }

    [Fact]
    public async Task A_stream_that_falls_silent_is_refused_after_its_time_limit()
    {
        var time = new FakeTimeProvider(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));
        await using var bench = await Bench.Start(time);

        await FallSilent(bench, time);

        Assert.Empty((await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new() { Kind = "measurement" })).Entries);
    }

    [Fact]
    public async Task A_stream_that_fell_silent_does_not_harm_later_calls_on_its_connection()
    {
        var time = new FakeTimeProvider(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));
        await using var bench = await Bench.Start(time);
        for (var i = 0; i < 20; i++)
        {
            await FallSilent(bench, time);
            await Push(new GaugeService.GaugeServiceClient(bench.Channel), new RecordReadingsRequest { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
            await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new());
        }
    }

    [Fact]
    public async Task A_stream_of_one_message_counts_as_one_request_of_the_rate()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 1);

        Assert.Equal(0.0924, (await Push(new GaugeService.GaugeServiceClient(bench.Channel), First)).DiameterMetres);
    }

    [Fact]
    public async Task Each_further_message_counts_as_one_more_request()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 20);

        await Refused(Push(new GaugeService.GaugeServiceClient(bench.Channel), [.. Enumerable.Repeat(First, 50)]), StatusCode.ResourceExhausted, "TOO_BUSY");
    }

    [Fact]
    public async Task Without_the_role_a_stream_is_refused_with_an_entry()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new JsonArray("locate", "review"));

        await Refused(Push(new GaugeService.GaugeServiceClient(bench.Channel), First), StatusCode.PermissionDenied, "NOT_PERMITTED");
        Assert.Single((await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new() { Kind = "refusal" })).Entries);
    }

    private static async Task FallSilent(Bench bench, FakeTimeProvider time)
    {
        using var call = new GaugeService.GaugeServiceClient(bench.Channel).RecordReadings();
        await call.RequestStream.WriteAsync(First);
        await Deadline.Until(
            () => call.ResponseAsync.IsCompleted,
            "the end of the call once the service has seen it and its time is up",
            () => time.Pass(TimeSpan.FromSeconds(61)));
        await Refused(call.ResponseAsync, StatusCode.InvalidArgument, "REQUEST_MALFORMED");
    }

    private Task<RecordReadingsResponse> Push(params RecordReadingsRequest[] messages) => Push(Gauge, messages);

    private static async Task<RecordReadingsResponse> Push(GaugeService.GaugeServiceClient gauge, params RecordReadingsRequest[] messages)
    {
        using var call = gauge.RecordReadings();
        try
        {
            foreach (var message in messages)
            {
                await call.RequestStream.WriteAsync(message);
            }

            await call.RequestStream.CompleteAsync();
        }
        catch (Exception e) when (e is RpcException or InvalidOperationException)
        {
            // Refused before everything was sent: the outcome says why.
        }

        return await call.ResponseAsync;
    }

    private async Task<IReadOnlyList<Entry>> Measurements() => (await Ledger.ListEntriesAsync(new() { Kind = "measurement" })).Entries;
}
