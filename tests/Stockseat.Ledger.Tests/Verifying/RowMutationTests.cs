using System.Text;
using System.Security.Cryptography;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>Every operation on rows, over every row of a small real ledger with seals of two keys.</summary>
public sealed class RowMutationTests
{
    [Fact]
    public async Task An_untouched_ledger_is_intact_and_its_seals_and_its_change_of_key_are_reported()
    {
        var (ledger, copy) = await Copy();
        using var _ = copy;

        var found = copy.Verify(new() { RequireSeal = true, Tail = 0, Anchors = [ledger.Head] });

        Assert.Empty(found.Faults);
        Assert.Equal(new SealsFound(4, ledger.Bodies.Count - 1, ledger.Second.Public.Fingerprint), found.Seals);
        Assert.Contains(found.Findings, f => f.Contains($"another key seals from entry {ledger.Seals[2]} on", StringComparison.Ordinal));
        Assert.Contains(found.Findings, f => f.EndsWith("holds", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_removed_row_is_a_gap_where_it_was()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n < ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql($"DELETE FROM entry WHERE serial = {n}");

            Assert.Equal((n + 1L, "gap"), First(copy.Verify()));
        }
    }

    [Fact]
    public async Task Two_rows_that_changed_places_are_both_named_and_no_others()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n < ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql(
                $"UPDATE entry SET serial = 100 WHERE serial = {n}; UPDATE entry SET serial = {n} WHERE serial = {n + 1}; UPDATE entry SET serial = {n + 1} "
                + $"WHERE serial = 100");

            var found = copy.Verify();

            // A seal that is not where it was, or whose entry is not, is bad too; a seal that is not in the chain does not make a key known.
            Assert.Equal([(n, "reordered"), (n + 1L, "reordered")], found.Faults.Where(f => f.Kind is not ("bad-seal" or "unknown-key"))
                .Select(f => (f.Serial, f.Kind)));
        }
    }

    [Fact]
    public async Task A_row_that_appears_twice_is_doubled()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n <= ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql($"INSERT INTO entry SELECT {ledger.Bodies.Count + 1}, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial = {n}");

            Assert.Equal((ledger.Bodies.Count + 1L, "doubled"), First(copy.Verify()));
        }
    }

    [Theory]
    [InlineData("at", "'2026-01-01T00:00:00.000000Z'")]
    [InlineData("kind", "'hold'")]
    [InlineData("fixture", "'other'")]
    [InlineData("revision", "77")]
    [InlineData("client", "'other'")]
    [InlineData("tag", "'other'")]
    public async Task A_column_that_differs_from_the_body_is_named(string column, string value)
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n <= ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql($"UPDATE entry SET {column} = {value} WHERE serial = {n}");

            Assert.Equal((n, "columns"), First(copy.Verify()));
        }
    }

    [Fact]
    public async Task Of_a_changed_hash_only_its_own_entry_is_named()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n <= ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql($"UPDATE entry SET hash = $hash WHERE serial = {n}", ("$hash", SHA256.HashData("other"u8)));

            // A key that came with an edited seal is not known any more.
            Assert.Equal([(n, "edited")], copy.Verify().Faults.Where(f => f.Kind != "unknown-key").Select(f => ((int)f.Serial, f.Kind)));
        }
    }

    [Fact]
    public async Task A_changed_body_is_named_and_with_a_new_hash_the_entry_after_it()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n < ledger.Bodies.Count; n++)
        {
            var body = LedgerCopy.With(ledger.Bodies[n - 1], ("note", "edited"));
            using var plain = new LedgerCopy(ledger.File);
            plain.Sql($"UPDATE entry SET body = $body WHERE serial = {n}", ("$body", body));
            using var hashed = new LedgerCopy(ledger.File);
            hashed.Sql($"UPDATE entry SET body = $body, hash = $hash WHERE serial = {n}", ("$body", body), ("$hash", Hash(hashed, n, body)));

            Assert.Equal((n, "edited"), First(plain.Verify()));
            Assert.Equal((n + 1L, "edited"), First(hashed.Verify()));
        }
    }

    [Fact]
    public async Task An_index_that_leaves_out_a_kind_is_not_an_index_of_the_service()
    {
        var (_, copy) = await Copy();
        using var both = copy;
        copy.Sql(
            "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'NOT IN (''answer'', ''refusal'')', 'NOT IN (''answer'', ''refusal'', "
            + "''held'')') WHERE name = 'entry_standing'");

        Assert.Equal((0, "tables"), First(copy.Verify()));
    }

    /// <summary>
    /// An entry of an index removed or changed, as a tool that writes pages can do: the indexes' own rows are changed by way of another schema.
    /// </summary>
    [Theory]
    [InlineData("entry_standing", "kind NOT IN ('answer', 'refusal', 'measurement')", "index")]
    [InlineData("entry_standing", "kind NOT IN ('answer')", "index")]
    [InlineData("entry_refused_push", "kind = 'answer'", "index")]
    public async Task An_index_that_disagrees_with_the_rows_is_found(string index, string which, string kind)
    {
        using var copy = new LedgerCopy(index == "entry_standing" ? (await SealedLedger.Get()).File : await OfVersion1());
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={copy.File};Pooling=False"))
        {
            connection.Open();
            var sql = Support.Ledger.Scalar(connection, $"SELECT sql FROM sqlite_schema WHERE name = '{index}'")!;
            var other = sql[..(sql.IndexOf("WHERE", StringComparison.Ordinal) + 6)] + which;
            Support.Ledger.Sql(connection, $"DROP INDEX {index}; {other}; PRAGMA writable_schema = ON");
            Support.Ledger.Sql(connection, $"UPDATE sqlite_schema SET sql = '{sql.Replace("'", "''", StringComparison.Ordinal)}' WHERE name = '{index}'");
        }

        var walked = LedgerVerifier.Verify(copy.Folder, new(), CancellationToken.None);

        Assert.NotEmpty(walked.Faults);
        Assert.All(walked.Faults, f => Assert.Equal(kind, f.Kind));
        copy.Verify(); // SQLite's own check finds missing entries, not surplus ones
    }

    [Theory]
    [InlineData("DROP INDEX entry_standing; DELETE FROM entry WHERE serial = 10000000 OR serial = -1")]
    [InlineData("CREATE TRIGGER quiet BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END; DELETE FROM entry WHERE serial = -1")]
    [InlineData("CREATE TABLE other (x); INSERT INTO other VALUES (1)")]
    public async Task Anything_that_does_not_belong_in_a_ledger_is_named(string sql)
    {
        var (_, copy) = await Copy();
        using var both = copy;
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={copy.File};Pooling=False"))
        {
            connection.Open();
            Support.Ledger.Sql(connection, sql);
        }

        Assert.Equal((0, "tables"), First(copy.Verify()));
    }

    private static (long, string) First(Verification found)
    {
        Assert.Equal(1, found.ExitCode);
        return (found.Faults[0].Serial, found.Faults[0].Kind);
    }

    private static byte[] Hash(LedgerCopy copy, int serial, string body)
    {
        using var reader = Stockseat.Ledger.Store.LedgerFile.OpenReader(copy.Folder);
        var before = serial == 1 ? new byte[32] : Stockseat.Ledger.Store.LedgerQueries.Find(reader, serial - 1)!.Hash;
        return SHA256.HashData([1, .. before, .. Encoding.UTF8.GetBytes(body)]);
    }

    /// <summary>A ledger with the tables of the first version and a refused push, which has an index in those tables.</summary>
    private static async Task<byte[]> OfVersion1()
    {
        using var ledger = await new Support.Ledger { Tables = 1 }.Begin();
        await ledger.Do(Support.Ledger.Measured(0.09) with { ReadingsMetres = [0.090, 0.0905], Terms = new(null, 1e-5, TimeSpan.FromHours(8)) });
        await ledger.End();
        return File.ReadAllBytes(ledger.File);
    }

    private static async Task<(SealedLedger Ledger, LedgerCopy Copy)> Copy()
    {
        var ledger = await SealedLedger.Get();
        return (ledger, new(ledger.File));
    }
}
