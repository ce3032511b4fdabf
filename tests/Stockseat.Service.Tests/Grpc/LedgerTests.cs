using Grpc.Core;
using Microsoft.Data.Sqlite;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class LedgerTests : GrpcCase
{
    public static TheoryData<int> BadPages => [-1, 1001, int.MinValue, int.MaxValue];

    [Fact]
    public async Task Pages_contain_each_entry_once()
    {
        await Fill();
        var all = (await Ledger.ListEntriesAsync(new())).Entries;
        var paged = new List<Entry>();
        var token = "";
        do
        {
            var page = await Ledger.ListEntriesAsync(new() { PageSize = 3, PageToken = token });
            Assert.InRange(page.Entries.Count, 1, 3);
            paged.AddRange(page.Entries);
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        Assert.Equal(all, paged);
        Assert.Equal(Enumerable.Range(1, all.Count).Select(i => (long)i), all.Select(e => e.Serial));
        Assert.All(all, e => Assert.Equal(32, e.Hash.Length));
    }

    [Fact]
    public async Task Entries_are_filtered()
    {
        await Fill();

        Assert.All((await Ledger.ListEntriesAsync(new() { Fixture = "rollers-3" })).Entries, e => Assert.Equal("rollers-3", e.Fixture));
        Assert.Equal(2, (await Ledger.ListEntriesAsync(new() { Fixture = "rollers-3" })).Entries.Count);
        Assert.Equal(5, (await Ledger.ListEntriesAsync(new() { Kind = "answer" })).Entries.Count);
        Assert.Equal("t3", Assert.Single((await Ledger.ListEntriesAsync(new() { Tag = "t3" })).Entries).Tag);
        Assert.Equal(6, (await Ledger.ListEntriesAsync(new() { Client = "bench" })).Entries.Count);
        Assert.Empty((await Ledger.ListEntriesAsync(new() { Client = "' OR 1=1 --" })).Entries);
        Assert.Equal([9L, 10L], (await Ledger.ListEntriesAsync(new() { After = 8 })).Entries.Select(e => e.Serial));
    }

    [Theory]
    [InlineData(-2, new long[] { 9, 10 })]
    [InlineData(-1000, new long[] { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 })]
    [InlineData(long.MaxValue, new long[0])]
    public async Task The_newest_entries_are_listed_in_order(long after, long[] serials)
    {
        await Fill();

        Assert.Equal(serials, (await Ledger.ListEntriesAsync(new() { After = after })).Entries.Select(e => e.Serial));
    }

    [Theory]
    [InlineData(-1001)]
    [InlineData(long.MinValue)]
    public async Task A_request_for_more_of_the_newest_than_a_page_has_is_refused(long after) =>
        await Refused(Ledger.ListEntriesAsync(new() { After = after }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

    [Theory]
    [MemberData(nameof(BadPages))]
    public async Task A_page_size_of_zero_is_refused(int size) =>
        await Refused(Ledger.ListEntriesAsync(new() { PageSize = size }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

    [Theory]
    [InlineData("x")]
    [InlineData("-1")]
    [InlineData("99999999999999999999")]
    public async Task A_page_token_of_another_list_is_refused(string token) =>
        await Refused(Ledger.ListEntriesAsync(new() { PageToken = token }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

    [Fact]
    public async Task A_ledger_in_use_is_verified_as_intact()
    {
        await Fill();
        var verified = await Ledger.VerifyAsync(new());

        Assert.Equal((true, 10L, 10L, 64, ""), (verified.Whole, verified.Entries, verified.HeadSerial, verified.HeadHash.Length, verified.Unreadable));
        Assert.Empty(verified.Faults);
    }

    [Fact]
    public async Task A_ledger_is_compared_with_anchors_and_required_seals()
    {
        await Fill();
        var plain = await Ledger.VerifyAsync(new());
        var anchor = $"stockseat seal 1\nledger {plain.Ledger}\nserial {plain.HeadSerial}\nhash {plain.HeadHash}\nat 2026-11-25T08:00:00.000000Z\n";

        Assert.True((await Ledger.VerifyAsync(new() { Anchors = { anchor } })).Whole);
        Assert.Equal("cut", Assert.Single((await Ledger.VerifyAsync(new() { Anchors = { anchor.Replace($"serial {plain.HeadSerial}", "serial 1000",
            StringComparison.Ordinal) } })).Faults).Kind);
        Assert.Equal("unsealed", Assert.Single((await Ledger.VerifyAsync(new() { RequireSeal = true })).Faults).Kind);
        await Refused(Ledger.VerifyAsync(new() { Anchors = { "x" } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Ledger.VerifyAsync(new() { Keys = { "x" } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Ledger.VerifyAsync(new() { Tail = -1 }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
    }

    [Fact]
    public async Task A_page_searches_a_limited_stretch_and_says_where_to_continue()
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(Bench.Folder, "data", "ledger.db")};Pooling=False");
        connection.Open();
        Execute(connection, "INSERT INTO entry (serial, at, kind, body, hash) VALUES (250000, '', 'far', '{}', x'00')");

        var first = await Ledger.ListEntriesAsync(new() { Kind = "far" });
        var second = await Ledger.ListEntriesAsync(new() { Kind = "far", PageToken = first.NextPageToken });
        var third = await Ledger.ListEntriesAsync(new() { Kind = "far", PageToken = second.NextPageToken });
        Execute(connection, "DELETE FROM entry WHERE serial = 250000");

        Assert.Equal((0, "100000"), (first.Entries.Count, first.NextPageToken));
        Assert.Equal((0, "200000"), (second.Entries.Count, second.NextPageToken));
        Assert.Equal((250000, ""), (Assert.Single(third.Entries).Serial, third.NextPageToken));
    }

    [Fact]
    public async Task One_entry_is_found_by_its_serial()
    {
        await Fill();
        var all = (await Ledger.ListEntriesAsync(new())).Entries;

        Assert.Equal(all[4], (await Ledger.GetEntryAsync(new() { Serial = 5 })).Entry);
        foreach (var serial in new[] { 0, 11, -1, long.MaxValue, long.MinValue })
        {
            await Refused(Ledger.GetEntryAsync(new() { Serial = serial }), StatusCode.NotFound, "SERIAL_UNKNOWN");
        }
    }

    /// <summary>Ten entries: the start, three adoptions, five answers and a measurement.</summary>
    private async Task Fill()
    {
        for (var i = 0; i < 5; i++)
        {
            await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = $"t{i}" });
        }

        await Gauge.RecordAsync(new() { Fixture = "rollers-3", ReadingsMetres = { 0.0924 } });
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        Assert.Equal(1, command.ExecuteNonQuery());
    }
}
