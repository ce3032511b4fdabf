using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>Anchors from before a roll.</summary>
public sealed class OlderAnchorTests
{
    [Fact]
    public async Task An_older_anchor_is_right_and_the_report_says_how_much_came_after_it_in_all_ledgers()
    {
        using var ledger = await Three();

        var v = Verify(ledger, At(ledger, 3));

        Assert.Empty(v.Faults);
        Assert.Contains(v.Findings, f => f.StartsWith("the anchor at entry 3 ", StringComparison.Ordinal)
            && f.EndsWith($": only the {v.HeadSerial - 3} entries after it could be cut or replaced unnoticed", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_edited_body_in_a_closed_ledger_is_found_by_an_anchor_of_that_ledger()
    {
        using var ledger = await Three();
        var anchor = At(ledger, 3);
        var path = ClosedLedgers.Of(ledger.Folder)[0].Path;
        using (var connection = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            connection.Open();
            Assert.Equal(1, Support.Ledger.Sql(connection, "UPDATE entry SET body = replace(body, '0.09', '0.08') WHERE serial = 3"));
        }

        var fault = Assert.Single(Verify(ledger, anchor, anchor).Faults);

        Assert.Equal((3, "edited"), (fault.Serial, fault.Kind));
        Assert.StartsWith("1-ledger-1.db: ", fault.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(7)]
    public async Task An_anchor_of_a_ledger_that_was_moved_away_can_not_be_checked_and_does_not_count_as_right(long serial)
    {
        using var ledger = await Three();
        var anchor = At(ledger, serial);
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);

        var v = Verify(ledger, anchor);

        Assert.Equal((2, 0), (v.ExitCode, v.Faults.Count));
        Assert.Contains("put it back, or check the anchor against it where it is now", v.Unreadable, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_a_ledger_that_was_moved_away_the_end_can_be_checked()
    {
        using var ledger = await Three();
        var end = At(ledger, 8);
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);

        var v = Verify(ledger, end);
        Assert.True(v.Whole);
        Assert.Contains(v.Findings, f => f.StartsWith("the anchor at entry 8 ", StringComparison.Ordinal) && f.EndsWith("holds", StringComparison.Ordinal));
        Assert.Equal("fork", Assert.Single(Verify(ledger, end with { Hash = new('0', 64) }).Faults).Kind);
        Assert.Equal("cut", Assert.Single(Verify(ledger, end with { Serial = 9 }).Faults).Kind);
        Assert.Equal("other-ledger", Assert.Single(Verify(ledger, end with { Serial = 9, Ledger = "another" }).Faults).Kind);
    }

    [Theory]
    [InlineData("{")]
    [InlineData("""{"v":1,"serial":9,"at":"2026-11-25T08:00:00.000000Z","kind":"rolled-over","ledger":"ledger-3","follows":5}""")]
    [InlineData("""{"v":1,"serial":9,"at":"2026-11-25T08:00:00.000000Z","kind":"rolled-over","ledger":5}""")]
    public async Task A_beginning_that_can_not_be_read_does_not_stop_the_check(string body)
    {
        using var ledger = await Three();
        var anchor = At(ledger, 3);
        await ledger.End();
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);
        ledger.Sql($"UPDATE entry SET body = '{body}' WHERE serial = 9");

        Assert.Contains((9, "edited"), Verify(ledger, anchor).Faults.Select(f => (f.Serial, f.Kind)));
    }

    private static Verification Verify(Support.Ledger ledger, params Anchor[] anchors) => ledger.Verify(new() { Anchors = anchors });

    private static Anchor At(Support.Ledger ledger, long serial)
    {
        using var reader = LedgerReader.Open(ledger.Folder);
        var row = reader.Find(serial)!;
        return new(serial < 5 ? "ledger-1" : "ledger-2", serial, Convert.ToHexStringLower(row.Hash), row.At, null, null);
    }

    /// <summary>Three ledgers: entries 1 to 4, 5 to 8, and from 9 on.</summary>
    private static async Task<Support.Ledger> Three()
    {
        var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Roll("ledger-2");
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Roll("ledger-3");
        await ledger.Do(Support.Ledger.Locate());
        return ledger;
    }
}
