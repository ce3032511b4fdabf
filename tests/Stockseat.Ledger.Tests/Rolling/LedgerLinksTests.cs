using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Rolling;

public sealed class LedgerLinksTests
{
    [Fact]
    public async Task A_closed_ledger_without_its_tail_and_a_wrong_ledger_in_its_place_are_found()
    {
        using var ledger = await Three();
        var middle = ClosedLedgers.Of(ledger.Folder)[1].Path;
        var kept = await File.ReadAllBytesAsync(middle, TestContext.Current.CancellationToken);

        Sql(middle, "DELETE FROM entry WHERE serial = (SELECT max(serial) FROM entry)");
        Assert.Equal(["link"], LedgerLinks.Check(ledger.Folder, _ => { }).Select(f => f.Kind));
        await File.WriteAllBytesAsync(middle, kept, TestContext.Current.CancellationToken);
        Sql(middle, "UPDATE entry SET hash = zeroblob(32) WHERE serial = (SELECT max(serial) FROM entry)");

        Assert.Contains("do not name each other", Assert.Single(LedgerLinks.Check(ledger.Folder, _ => { })).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_ledger_that_was_moved_away_is_reported_and_is_not_a_fault()
    {
        using var ledger = await Three();
        File.Delete(ClosedLedgers.Of(ledger.Folder)[0].Path);
        var away = new List<string>();

        Assert.Empty(LedgerLinks.Check(ledger.Folder, away.Add));
        Assert.Contains("continues ledger ledger-1, which ended with 3 and is not in closed", Assert.Single(away), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_first_entry_that_does_not_name_the_entry_before_it_is_a_fault()
    {
        using var ledger = await Three();
        await ledger.End();
        ledger.Sql("DELETE FROM entry WHERE serial = (SELECT min(serial) FROM entry)");

        Assert.Equal("gap", ledger.Verify().Faults[0].Kind);
        Assert.Contains("does not say that it continues", Assert.Single(LedgerLinks.Check(ledger.Folder, _ => { })).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unreadable_file_is_a_fault_among_the_closed_ledgers_and_does_not_stop_the_check()
    {
        using var ledger = await Three();
        await ledger.End();
        await File.WriteAllTextAsync(Path.Combine(ledger.Folder, ClosedLedgers.Folder, "2-x.db"), "no database", TestContext.Current.CancellationToken);

        Assert.Contains("2-x.db is among the closed ledgers and can't be read", Assert.Single(LedgerLinks.Check(ledger.Folder, _ => { })).Text,
            StringComparison.Ordinal);
        using (var reader = LedgerReader.Open(ledger.Folder))
        {
            Assert.Contains("2-x.db", Assert.Throws<InvalidDataException>(() => reader.Piece(1, 3, 10, null)).Message, StringComparison.Ordinal);
        }

        File.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder, "2-x.db"));
        using (var file = new FileStream(ledger.File, FileMode.Open))
        {
            file.Position = 4096; // the root of the table
            file.Write(new byte[4096]);
        }

        Assert.Empty(LedgerLinks.Check(ledger.Folder, _ => { }));
        Assert.False(ledger.Verify().Whole);
    }

    private static async Task<Support.Ledger> Three()
    {
        var ledger = await new Support.Ledger().Begin();
        await ledger.Roll("ledger-2");
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Roll("ledger-3");
        await ledger.Do(Support.Ledger.Locate());
        return ledger;
    }

    private static void Sql(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        Assert.Equal(1, Support.Ledger.Sql(connection, sql));
    }
}
