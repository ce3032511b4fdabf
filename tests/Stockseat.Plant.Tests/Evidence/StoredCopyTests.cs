using Stockseat.Answers.Locate;
using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Verifying;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;
using Stockseat.Plant.Tests.Support;
using Local = Stockseat.Ledger.Tests.Support.Ledger;
using Running = Stockseat.Plant.Tests.Support.Forwarding;

namespace Stockseat.Plant.Tests.Evidence;

/// <summary>A ledger out of the plant store gets the same verdicts as the ledger that was sent.</summary>
public sealed class StoredCopyTests(Server server) : IDisposable
{
    private readonly string _id = Guid.NewGuid().ToString();
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-copy-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Copy_has_the_closed_ledgers_too_and_is_verified_and_replayed_like_the_folder()
    {
        var (database, second) = (await server.Prepared(), Guid.NewGuid().ToString());
        using var ledger = await new Local { Id = _id, SnapshotEvery = 100 }.Begin();
        await Ask(ledger, 120);
        await ledger.Roll(second);
        await Ask(ledger, 30);
        await Send(ledger, database);

        await Copy(database, second);

        Assert.Equal(Running.Expected(ledger.File), Running.Expected(Path.Combine(_folder, LedgerFile.Name)));
        Assert.Equal(Running.Expected(ClosedLedgers.Of(ledger.Folder)[0].Path), Running.Expected(ClosedLedgers.Of(_folder)[0].Path));
        Assert.Equal(Said(ledger.Verify()), Said(LedgerVerifier.Verify(_folder, new(), default)));
        Assert.Empty(LedgerLinks.Check(_folder, _ => { }));
        Assert.Equal((0, LedgerReplay.Run(ledger.Folder, new(), default).Same), Result(LedgerReplay.Run(_folder, new(), default)));
    }

    [Theory]
    [InlineData("UPDATE {0} SET body = replace(body, '0.09', '0.08') WHERE serial = 9")]
    [InlineData("UPDATE {0} SET fixture = 'other' WHERE serial = 9")]
    [InlineData("UPDATE {0} SET kind = 'refusal' WHERE serial = 9")]
    [InlineData("UPDATE {0} SET tag = NULL WHERE serial = 9")]
    [InlineData("UPDATE {0} SET revision = 7 WHERE serial = 9")]
    [InlineData("UPDATE {0} SET hash = (SELECT hash FROM {0} WHERE serial = 8) WHERE serial = 9")]
    [InlineData("UPDATE {0} SET body = 'nothing' WHERE serial = 9")]
    [InlineData("DELETE FROM {0} WHERE serial = 9")]
    [InlineData("DELETE FROM {0} WHERE serial < 3")]
    public async Task Changed_row_in_the_store_is_found_as_in_the_file(string change)
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 12);
        await Send(ledger, database);
        await ledger.Close();
        ledger.Sql(string.Format(System.Globalization.CultureInfo.InvariantCulture, change, "entry"));
        await database.Sql(string.Format(System.Globalization.CultureInfo.InvariantCulture, change, "stockseat.entry"));

        await Copy(database, _id);

        var found = LedgerVerifier.Verify(_folder, new(), default);
        Assert.NotEmpty(found.Faults);
        // The file's table of request ids is kept by itself; that of the copy is made from the rows.
        Assert.Equal(Said(ledger.Verify()), Said(found));
        Assert.Equal(found.Faults, (await new StoredVerifier(database.Address(), null).Run(await All(database), default))[0].Found.Faults);
    }

    [Fact]
    public async Task Every_ledger_is_verified_and_a_missing_end_of_a_closed_one_is_found()
    {
        var (database, second) = (await server.Prepared(), Guid.NewGuid().ToString());
        using var ledger = await new Local { Id = _id }.Begin();
        using var other = await new Local { Id = Guid.NewGuid().ToString() }.Begin();
        await Ask(ledger, 10);
        await ledger.Roll(second);
        await Ask(ledger, 10);
        await Ask(other, 10);
        await Send(ledger, database);
        await Send(other, database);
        var told = new List<(long Done, long All)>();

        var good = await new StoredVerifier(database.Address(), (done, all) => told.Add((done, all))).Run(await All(database), default);
        await database.Sql($"DELETE FROM stockseat.entry WHERE ledger = '{_id}' AND kind = 'rolled-over'");
        var bad = await new StoredVerifier(database.Address(), null).Run(await All(database), default);

        Assert.Equal((3, true), (good.Count, good.All(v => v.Found.Whole)));
        Assert.Equal((good.Sum(v => v.Found.Entries), good.Sum(v => v.Found.Entries)), told[^1]);
        var fault = Assert.Single(bad.SelectMany(v => v.Found.Faults));
        Assert.Equal((FaultKinds.Link, second), (fault.Kind, bad.Single(v => !v.Found.Whole).Found.Ledger));
    }

    private async Task Copy(Database database, string ledger)
    {
        await using var connection = await PlantConnection.To(database.Address(), default);
        var all = await StoredLedgers.All(connection, database.Address(), default);
        await new StoredCopy(connection, database.Address()).Make(StoredChoice.Of(all, ledger, null, out _)!, all, _folder, default);
    }

    private static async Task<IReadOnlyList<StoredLedger>> All(Database database)
    {
        await using var connection = await PlantConnection.To(database.Address(), default);
        return await StoredLedgers.All(connection, database.Address(), default);
    }

    private static async Task Send(Local ledger, Database database)
    {
        await using var running = new Running(ledger, database.Address());
        await running.Stores(ledger.Writer.Serial);
    }

    private static async Task Ask(Local ledger, int count)
    {
        for (var i = 0; i < count; i++)
        {
            await ledger.Do<AnswerBody>(Local.Locate());
        }
    }

    private static string Said(Verification v) =>
        $"{v.Entries} {v.Ledger} {v.HeadSerial} {v.HeadHash} {string.Join('|', v.Faults)} {string.Join('|', v.Findings)} {v.Unreadable}";

    private static (int Code, long Same) Result(ReplayResult result) => (result.ExitCode, result.Same);
}
