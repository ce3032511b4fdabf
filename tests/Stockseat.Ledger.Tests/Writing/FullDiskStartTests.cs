using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Adoption;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>A service's writer whose ledger can't be opened, or can't be written, at first.</summary>
public sealed class FullDiskStartTests : IDisposable
{
    private const string Fail = "CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END";

    private readonly Support.Ledger _ledger = new();

    [Fact]
    public async Task A_service_decides_nothing_before_its_first_entries()
    {
        using var writer = Open();

        Assert.False(writer.Writable);
        Assert.Equal(Reason.LedgerUnavailable, await Refused(writer));
        Assert.Equal(0, writer.Serial);

        Assert.Null((await Start(writer)).Refusal);
        Assert.True(writer.Writable);
        Assert.Equal([Kinds.ServiceStarted, Kinds.RevisionAdopted, Kinds.Answer], await AnswerAndKinds(writer));
    }

    [Fact]
    public async Task A_ledger_that_is_locked_at_first_is_opened_when_it_can_be()
    {
        await (await _ledger.Begin()).End();
        using var other = _ledger.Other();
        Support.Ledger.Sql(other, "PRAGMA locking_mode=EXCLUSIVE; BEGIN EXCLUSIVE");
        using var writer = Open();
        Assert.IsType<SqliteException>(writer.NotOpened);
        Assert.Equal(Reason.LedgerUnavailable, await Refused(writer));
        Assert.Equal(Reason.LedgerUnavailable, (await Start(writer)).Refusal!.Reason);
        Assert.Throws<IOException>(() => FolderLock.Take(_ledger.Folder)); // The writer has the folder all the same.

        other.Dispose();
        await Started(writer);

        Assert.Equal(Kinds.ServiceStopped, writer.LastKind);
        Assert.Equal([Kinds.ServiceStarted, Kinds.RevisionAdopted, Kinds.ServiceStopped, Kinds.ServiceStarted, Kinds.Answer], await AnswerAndKinds(writer));
    }

    [Fact]
    public async Task First_entries_that_can_not_be_written_are_reported_once_and_written_later()
    {
        await (await _ledger.Begin()).End();
        using var writer = Open();
        _ledger.Sql(Fail);
        var told = new List<bool>();
        writer.WritableChanged += (writable, _) => told.Add(writable);

        Assert.Equal(Reason.LedgerUnavailable, (await Start(writer)).Refusal!.Reason);
        Assert.Equal(Reason.LedgerUnavailable, await Refused(writer));
        Assert.Equal(Reason.LedgerUnavailable, (await Start(writer)).Refusal!.Reason);
        _ledger.Sql("DROP TRIGGER full");
        await Started(writer);

        Assert.Equal([false, true], told);
        Assert.Equal([Kinds.ServiceStarted, Kinds.RevisionAdopted, Kinds.ServiceStopped, Kinds.ServiceStarted, Kinds.Answer], await AnswerAndKinds(writer));
    }

    [Fact]
    public async Task A_stop_before_the_first_entries_leaves_the_ledger_as_it_was()
    {
        await (await _ledger.Begin()).End();
        var writer = Open();
        _ledger.Sql(Fail);
        Assert.NotNull((await Start(writer)).Refusal);
        Assert.Equal(Reason.LedgerUnavailable, (await Support.Ledger.Soon(writer.Append(_ => [new ServiceStoppedBody()]))).Refusal!.Reason);

        Assert.Null(await Support.Ledger.Soon(writer.Stop()));
        writer.Dispose();

        Assert.Equal(3, _ledger.Rows().Count);
        FolderLock.Take(_ledger.Folder).Dispose();
    }

    [Fact]
    public void A_fault_that_waiting_can_not_clear_ends_the_start_at_once()
    {
        File.WriteAllText(_ledger.File, new string('x', 5000)); // not a database
        Assert.Throws<SqliteException>(Open);
        File.Delete(_ledger.File);
        Directory.CreateDirectory(_ledger.File); // SQLite uses the same message for missing permissions and for a full disk
        Assert.Throws<SqliteException>(Open);

        FolderLock.Take(_ledger.Folder).Dispose(); // The folder was released each time.
    }

    [Fact]
    public void Another_service_in_the_folder_ends_the_start_at_once()
    {
        using var other = FolderLock.Take(_ledger.Folder);

        Assert.Contains("another service uses it", Assert.Throws<IOException>(Open).Message, StringComparison.Ordinal);
    }

    public void Dispose() => _ledger.Dispose();

    private LedgerWriter Open() => LedgerWriter.Open(_ledger.Folder, _ledger.Time, forService: true);

    private Task<AppendOutcome> Start(LedgerWriter writer) => Support.Ledger.Soon(writer.Append(
        s => [new ServiceStartedBody { Ledger = writer.LastKind is null ? "ledger-1" : null, Program = ProgramVersion.Text, Host = "h", Process = 1 },
            .. Adopting.OfFolders(s, FirstAdoption.Automatic)],
        [_ledger.Fixture], isStart: true));

    /// <summary>The writer's next attempt to open the ledger comes by itself.</summary>
    private Task Started(LedgerWriter writer) => Deadline.Until(async () => (await Start(writer)).Refusal is null, "the recorded start");

    private static async Task<Reason> Refused(LedgerWriter writer) => (await Support.Ledger.Soon(writer.Append(Support.Ledger.Locate()))).Refusal!.Reason;

    private async Task<IEnumerable<string>> AnswerAndKinds(LedgerWriter writer)
    {
        Assert.Null((await Support.Ledger.Soon(writer.Append(Support.Ledger.Locate()))).Refusal);
        Assert.True(_ledger.Verify().Whole);
        return _ledger.Rows().Select(r => r.Kind);
    }
}
