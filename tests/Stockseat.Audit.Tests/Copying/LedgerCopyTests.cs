using Stockseat.Answers.Locate;
using Stockseat.Audit.Copying;
using Stockseat.Ledger.Store;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Copying;

public sealed class LedgerCopyTests
{
    [Fact]
    public async Task A_copy_of_a_running_ledger_is_intact_and_of_one_moment()
    {
        using var ledger = await new TestLedger().Begin();
        await TestLedger.Soon(Task.WhenAll(Enumerable.Range(0, 5000).Select(i => ledger.Writer.Append(TestLedger.Locate(client: $"bench-{i % 4}")))));
        var to = Path.Combine(ledger.Folder, "copy");
        var (head, told) = (ledger.Writer.Serial, new List<long>());
        Task? meanwhile = null;

        // The writer continues between two pieces, and nothing prevents its log from being emptied.
        var copied = LedgerCopy.Make(
            ledger.Folder, to,
            (_, serial) =>
            {
                told.Add(serial);
                meanwhile = ledger.Do(TestLedger.Locate());
                meanwhile.Wait(TestContext.Current.CancellationToken);
                using var other = ledger.Other();
                Assert.Equal("0", TestLedger.Scalar(other, "PRAGMA wal_checkpoint(TRUNCATE)"));
            },
            TestContext.Current.CancellationToken);

        Assert.True(copied.Whole, string.Join("; ", copied.Faults));
        Assert.Equal((head, head), (copied.Entries, copied.HeadSerial));
        Assert.True(told.Count >= 3 && ledger.Writer.Serial > head);
        Assert.Equal([LedgerFile.Name], Directory.GetFiles(to).Select(Path.GetFileName));
        using var reader = LedgerFile.OpenReader(to);
        Assert.Equal(ledger.Rows().Take((int)head).Select(Row), LedgerQueries.After(reader, 0, int.MaxValue).Select(Row));
    }

    [Fact]
    public async Task A_service_continues_in_a_copy()
    {
        using var ledger = await new TestLedger().Begin();
        await ledger.Do(TestLedger.Measured(0.09));
        using var copy = new TestLedger();
        LedgerCopy.Make(ledger.Folder, copy.Folder, (_, _) => { }, TestContext.Current.CancellationToken);

        await copy.Begin();

        Assert.Equal(0.09, (await copy.Do<AnswerBody>(TestLedger.Locate(null))).Diameter);
        Assert.True(copy.Verify().Whole);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task A_copy_has_the_tables_of_the_ledger_and_knows_its_request_ids(int tables)
    {
        using var ledger = await new TestLedger { Tables = tables }.Begin();
        var first = await ledger.Do(TestLedger.Locate(request: "a"));
        using var copy = new TestLedger();

        Assert.True(LedgerCopy.Make(ledger.Folder, copy.Folder, (_, _) => { }, TestContext.Current.CancellationToken).Whole);

        await copy.Begin();
        using var connection = LedgerFile.OpenReader(copy.Folder);
        Assert.Equal(tables, LedgerTables.VersionOf(connection));
        Assert.Equal(first.Serial, (await copy.Do(TestLedger.Locate(request: "a"))).Serial);
    }

    [Fact]
    public async Task No_ledger_is_overwritten_and_nothing_is_left_of_a_copy_that_was_stopped()
    {
        using var ledger = await new TestLedger().Begin();
        var to = Path.Combine(ledger.Folder, "copy");
        using var stop = new CancellationTokenSource();

        Assert.Throws<OperationCanceledException>(() => LedgerCopy.Make(ledger.Folder, to, (_, _) => stop.Cancel(), stop.Token));
        Assert.Empty(Directory.GetFileSystemEntries(to));
        var e = Assert.Throws<IOException>(() => LedgerCopy.Make(ledger.Folder, ledger.Folder, (_, _) => { }, CancellationToken.None));
        Assert.Contains("exists already and is never overwritten", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_ledger_is_copied_as_it_is_and_the_damage_is_reported()
    {
        using var ledger = await new TestLedger().Begin();
        await ledger.Do(TestLedger.Locate());
        await ledger.End();
        ledger.Sql("UPDATE entry SET body = replace(body, '0.09', '0.08') WHERE serial = 3");
        var to = Path.Combine(ledger.Folder, "copy");

        var copied = LedgerCopy.Make(ledger.Folder, to, (_, _) => { }, TestContext.Current.CancellationToken);

        Assert.Equal(1, copied.ExitCode);
        Assert.Equal(("edited", 3), (copied.Faults[0].Kind, copied.Faults[0].Serial));
    }

    private static string Row(EntryRow r) => $"{r.Serial} {r.At} {r.Kind} {r.Fixture} {r.Revision} {r.Client} {r.Tag} {r.Body} {Convert.ToHexString(r.Hash)}";
}
