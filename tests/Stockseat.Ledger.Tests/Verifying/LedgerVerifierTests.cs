using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Verifying;

public sealed class LedgerVerifierTests
{
    [Fact]
    public async Task An_intact_ledger_is_reported_as_intact_and_how_far_that_can_be_trusted()
    {
        using var ledger = await Stopped();

        var found = ledger.Verify();

        Assert.Equal((true, 0, 6L, 6L, "ledger-1"), (found.Whole, found.ExitCode, found.Entries, found.HeadSerial, found.Ledger));
        Assert.Equal(Convert.ToHexStringLower(ledger.Rows()[^1].Hash), found.HeadHash);
        Assert.Contains(found.Findings, f => f.Contains("unsealed", StringComparison.Ordinal));
        Assert.Contains(found.Findings, f => f.Contains("anchor", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("UPDATE entry SET body = replace(body, '0.09', '0.08') WHERE serial = 3", 3, "edited")]
    [InlineData("UPDATE entry SET body = body || ' ' WHERE serial = 3", 3, "edited")]
    [InlineData("UPDATE entry SET body = body || char(0) || 'x' WHERE serial = 3", 3, "edited")]
    [InlineData("UPDATE entry SET body = replace(body, '\"v\":2', '\"v\":9') WHERE serial = 3", 3, "edited")]
    [InlineData("UPDATE entry SET hash = zeroblob(32) WHERE serial = 3", 3, "edited")]
    [InlineData("UPDATE entry SET hash = x'' WHERE serial = 6", 6, "edited")]
    [InlineData("UPDATE entry SET at = '2026-01-01T00:00:00.000000Z' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET kind = 'refusal' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET fixture = 'bed2' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET fixture = NULL WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET revision = 2 WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET client = 'x' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET tag = '8' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET tag = tag || char(0) || 'x' WHERE serial = 3", 3, "columns")]
    [InlineData("UPDATE entry SET revision = 9000000000 WHERE serial = 3", 3, "columns")]
    [InlineData("DELETE FROM entry WHERE serial = 3", 4, "gap")]
    [InlineData("DELETE FROM entry WHERE serial IN (3, 4)", 5, "gap")]
    [InlineData("DELETE FROM entry WHERE serial = 1", 2, "gap")]
    [InlineData("UPDATE entry SET serial = 100 WHERE serial = 3; UPDATE entry SET serial = 3 WHERE serial = 4; UPDATE entry SET serial = 4 WHERE serial = 100",
        3, "reordered")]
    [InlineData("INSERT INTO entry SELECT 7, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial = 6", 7, "doubled")]
    [InlineData("INSERT INTO entry SELECT 0, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial = 6", 0, "start")]
    [InlineData("INSERT INTO entry SELECT -5, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial = 6", -5, "start")]
    [InlineData("DELETE FROM entry", 0, "start")]
    public async Task Every_row_operation_is_found_where_it_is(string sql, long serial, string kind)
    {
        using var ledger = await Stopped();
        Assert.True(ledger.Sql(sql) > 0);

        var found = ledger.Verify();

        Assert.Equal((1, false), (found.ExitCode, found.Whole));
        Assert.Equal((serial, kind), (found.Faults[0].Serial, found.Faults[0].Kind));
        Assert.Null(found.Unreadable);
    }

    [Fact]
    public async Task A_forged_row_with_a_valid_hash_is_found_when_its_serial_is_not_its_own()
    {
        using var ledger = await Stopped();
        Forge(ledger, b => b.Replace("\"serial\":6", "\"serial\":9", StringComparison.Ordinal));

        Assert.Equal("columns", Assert.Single(ledger.Verify().Faults).Kind);
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("{\"v\":\"1\"}")]
    [InlineData("{\"v\":99999999999}")]
    public async Task An_unreadable_body_after_a_valid_hash_is_a_fault(string body)
    {
        using var ledger = await Stopped();
        Forge(ledger, _ => body);

        var found = ledger.Verify();

        Assert.Equal(1, found.ExitCode);
        Assert.Equal((6, "body"), (found.Faults[0].Serial, found.Faults[0].Kind));
    }

    [Fact]
    public async Task An_unknown_version_after_a_valid_hash_could_not_be_checked()
    {
        using var ledger = await Stopped();
        Forge(ledger, b => b.Replace("\"v\":2", "\"v\":9", StringComparison.Ordinal));

        var found = ledger.Verify();

        Assert.Empty(found.Faults);
        Assert.Equal((2, false), (found.ExitCode, found.Whole));
        Assert.Contains("entry 6 has version 9", found.Unreadable, StringComparison.Ordinal);
    }

    /// <summary>The README says so: without an anchor outside the machine nobody can detect this.</summary>
    [Fact]
    public async Task A_cut_tail_passes_without_an_anchor()
    {
        using var ledger = await Stopped();
        ledger.Sql("DELETE FROM entry WHERE serial > 4");

        var found = ledger.Verify();

        Assert.Equal((true, 4L), (found.Whole, found.HeadSerial));
        Assert.Contains(found.Findings, f => f.Contains("a cut tail", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_writer_adds_nothing_after_a_damaged_last_entry()
    {
        using var ledger = await Stopped();
        ledger.Sql("UPDATE entry SET body = body || ' ' WHERE serial = 6");

        Assert.Throws<InvalidDataException>(() => LedgerWriter.Open(ledger.Folder, TimeProvider.System));
    }

    [Fact]
    public async Task A_cancelled_token_stops_the_verifying()
    {
        using var ledger = await Stopped();
        using var reader = LedgerFile.OpenReader(ledger.Folder);

        Assert.Throws<OperationCanceledException>(() => LedgerVerifier.Verify(reader, new(canceled: true)));
    }

    private static async Task<Support.Ledger> Stopped()
    {
        var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Do(Support.Ledger.Measured(0.091));
        await ledger.Do(Support.Ledger.Confirm(3));
        await ledger.End();
        return ledger;
    }

    /// <summary>Replaces the last entry with one whose hash is right, as anybody with write access to the file can.</summary>
    private static void Forge(Support.Ledger ledger, Func<string, string> edit)
    {
        var rows = ledger.Rows();
        var body = edit(rows[^1].Body);
        Assert.NotEqual(rows[^1].Body, body);
        var hash = SHA256.HashData([1, .. rows[^2].Hash, .. Encoding.UTF8.GetBytes(body)]);
        using var connection = ledger.Other();
        using var command = connection.CreateCommand();
        command.CommandText = "UPDATE entry SET body = $body, hash = $hash WHERE serial = $serial";
        command.Parameters.AddWithValue("$body", body);
        command.Parameters.AddWithValue("$hash", hash);
        command.Parameters.AddWithValue("$serial", rows[^1].Serial);
        Assert.Equal(1, command.ExecuteNonQuery());
    }
}
