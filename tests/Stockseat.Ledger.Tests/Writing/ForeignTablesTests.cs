using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>Additions to the ledger's file that would make acknowledged entries missing or different from what they seem.</summary>
public sealed class ForeignTablesTests : IDisposable
{
    private readonly Support.Ledger _ledger = new();

    /// <summary>The statement, what is named, and the statement that undoes it; empty: no statement undoes it to the letter.</summary>
    public static TheoryData<string, string, string> Changes => new()
    {
        {
            "CREATE TRIGGER quiet BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END",
            "trigger quiet does not belong in a ledger", "DROP TRIGGER quiet"
        },
        {
            "CREATE TRIGGER gone AFTER INSERT ON entry BEGIN DELETE FROM entry WHERE serial = new.serial; END",
            "trigger gone does not belong", "DROP TRIGGER gone"
        },
        {
            "ALTER TABLE entry RENAME TO true_entry; CREATE VIEW entry AS SELECT * FROM true_entry; "
                + "CREATE TRIGGER into_view INSTEAD OF INSERT ON entry BEGIN SELECT 1; END",
            "table entry is missing", ""
        },
        { "ALTER TABLE entry RENAME TO another", "table entry is missing", "" },
        { "ALTER TABLE entry RENAME COLUMN tag TO label", "table entry is not as the service makes it", "" },
        { "ALTER TABLE entry ADD COLUMN twice TEXT AS (body || body)", "table entry is not as the service makes it", "" },
        { "CREATE UNIQUE INDEX once ON entry (fixture)", "index once does not belong", "DROP INDEX once" },
        {
            "DROP INDEX entry_standing; CREATE INDEX entry_standing ON entry (fixture, kind, serial) WHERE kind = 'answer'",
            "index entry_standing is not as the service makes it", ""
        },
    };

    public void Dispose() => _ledger.Dispose();

    [Theory]
    [MemberData(nameof(Changes))]
    public async Task A_start_is_refused_with_what_was_found_and_writes_nothing(string change, string named, string back)
    {
        await (await _ledger.Begin()).End();
        var before = await File.ReadAllBytesAsync(_ledger.File, TestContext.Current.CancellationToken);
        Change(change);
        var bytes = await File.ReadAllBytesAsync(_ledger.File, TestContext.Current.CancellationToken);

        foreach (var forService in new[] { true, false })
        {
            var refused = Assert.ThrowsAny<IOException>(() => LedgerWriter.Open(_ledger.Folder, _ledger.Time, forService: forService));
            Assert.Contains(named, refused.Message, StringComparison.Ordinal);
            Assert.Contains("stockseat ledger verify", refused.Message, StringComparison.Ordinal);
        }

        Assert.Equal(bytes, await File.ReadAllBytesAsync(_ledger.File, TestContext.Current.CancellationToken));
        Assert.Contains(_ledger.Verify().Faults, f => f.Kind == "tables" && f.Text.Contains(named, StringComparison.Ordinal));
        FolderLock.Take(_ledger.Folder).Dispose();
        if (back.Length == 0)
        {
            await File.WriteAllBytesAsync(_ledger.File, before, TestContext.Current.CancellationToken);
        }
        else
        {
            Change(back);
        }

        await (await _ledger.Begin()).End();
    }

    [Theory]
    [MemberData(nameof(Changes))]
    public async Task While_the_service_runs_nothing_is_acknowledged_until_the_addition_is_removed(string change, string named, string back)
    {
        await _ledger.Begin();
        var causes = new List<string>();
        _ledger.Writer.WritableChanged += (_, cause) => causes.Add(cause?.Message ?? "");
        var last = _ledger.Writer.Serial;
        Change(change);

        Assert.Equal(Reason.LedgerUnavailable, await _ledger.Refused(Support.Ledger.Locate()));
        Assert.Contains(named, causes[0], StringComparison.Ordinal);
        await Support.Ledger.Soon(_ledger.Writer.NextTurn());
        Assert.Equal(Reason.LedgerUnavailable, await _ledger.Refused(Support.Ledger.Locate()));

        if (back.Length == 0)
        {
            await _ledger.Close();
            return;
        }

        Change(back);
        EntryBody? answer = null;
        await Deadline.Until(
            async () => (answer = (await _ledger.Writer.Append(Support.Ledger.Locate())).Entry) is not null,
            "an answer after its next attempt, which comes by itself");

        Assert.Equal(last + 1, answer!.Serial);
        await _ledger.End();
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task An_addition_made_while_a_batch_waits_for_the_disk_is_seen_before_the_batch_is_written()
    {
        await _ledger.Begin();
        using (var other = _ledger.Other())
        {
            // This connection has the lock that the batch waits for, and commits the trigger then.
            Support.Ledger.Sql(other, "BEGIN IMMEDIATE; CREATE TRIGGER quiet BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END");
            var waits = _ledger.Writer.Append(Support.Ledger.Locate());
            Support.Ledger.Sql(other, "COMMIT");

            Assert.Equal(Reason.LedgerUnavailable, (await Support.Ledger.Soon(waits)).Refusal!.Reason);
        }

        Assert.Equal(2, _ledger.Rows().Count);
    }

    [Fact]
    public async Task An_older_row_that_another_program_writes_is_left_to_verify()
    {
        await _ledger.Begin();
        var first = await _ledger.Do(Support.Ledger.Locate());
        var last = await _ledger.Do(Support.Ledger.Locate());
        _ledger.Sql($"UPDATE entry SET tag = 'x' WHERE serial = {first.Serial}");

        Assert.Equal(last.Serial + 1, (await _ledger.Do(Support.Ledger.Locate())).Serial);
        Assert.Contains(_ledger.Verify().Faults, f => f.Kind == "columns");
    }

    [Fact]
    public async Task A_newest_row_that_another_program_wrote_is_read_before_anything_is_decided()
    {
        await _ledger.Begin();
        var last = await _ledger.Do(Support.Ledger.Locate());
        var lost = new TaskCompletionSource<Exception?>(TaskCreationOptions.RunContinuationsAsynchronously);
        _ledger.Writer.WritableChanged += (writable, cause) => Assert.True(writable || lost.TrySetResult(cause));
        _ledger.Sql($"INSERT INTO entry SELECT serial + 1, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial = {last.Serial}");

        Assert.Equal(Reason.LedgerUnavailable, await _ledger.Refused(Support.Ledger.Locate()));
        Assert.Contains("another program wrote in", (await Support.Ledger.Soon(lost.Task))!.Message, StringComparison.Ordinal);
        var ended = Assert.IsType<InvalidDataException>(await Support.Ledger.Soon(_ledger.Writer.Ended));
        Assert.Contains("does not follow from the one before it", ended.Message, StringComparison.Ordinal);
    }

    private void Change(string sql)
    {
        using var other = _ledger.Other();
        Support.Ledger.Sql(other, sql);
    }
}
