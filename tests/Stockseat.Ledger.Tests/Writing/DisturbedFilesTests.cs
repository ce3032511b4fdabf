using Microsoft.Data.Sqlite;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>Somebody changes the files of a ledger that is being written: nothing is acknowledged that is missing afterwards.</summary>
public sealed class DisturbedFilesTests : IDisposable
{
    private readonly Support.Ledger _ledger = new();

    /// <summary>An old copy, made while the service was idle.</summary>
    private readonly string _old = Path.Combine(Directory.CreateTempSubdirectory("stockseat-old-").FullName, LedgerFile.Name);

    public void Dispose()
    {
        _ledger.Dispose();
        Directory.Delete(Path.GetDirectoryName(_old)!, recursive: true);
    }

    [Theory]
    [InlineData("", "removed or renamed")]
    [InlineData("-wal -shm", "removed or renamed")]
    public async Task A_removed_ledger_ends_the_writer_and_no_start_begins_another_ledger(string beside, string words)
    {
        await Filled();
        File.Delete(_ledger.File);
        Array.ForEach(beside.Split(' ', StringSplitOptions.RemoveEmptyEntries), b => File.Delete(_ledger.File + b));

        await Ends(words);
        Assert.False(File.Exists(_ledger.File));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task An_old_copy_moved_over_the_ledger_ends_the_writer_and_is_not_touched(bool withoutLog)
    {
        await Filled();
        var bytes = await File.ReadAllBytesAsync(_old, TestContext.Current.CancellationToken);
        if (withoutLog)
        {
            File.Delete(_ledger.File + "-wal");
            File.Delete(_ledger.File + "-shm");
        }

        File.Move(_old, _ledger.File, overwrite: true);

        await Ends("replaced by another file");
        Assert.Equal(bytes, await File.ReadAllBytesAsync(_ledger.File, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task An_old_copy_written_over_the_ledger_ends_the_writer_and_is_not_touched(bool idle)
    {
        await Filled();
        var bytes = await File.ReadAllBytesAsync(_old, TestContext.Current.CancellationToken);
        using (var place = new FileStream(_ledger.File, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            place.SetLength(0);
            place.Write(bytes);
        }

        await Ends("was overwritten while the service had it open", idle);
        Assert.Equal(bytes, await File.ReadAllBytesAsync(_ledger.File, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_removed_ledger_is_noticed_even_when_nobody_asks()
    {
        await Filled();
        File.Delete(_ledger.File);

        await Ends("removed or renamed", idle: true);
    }

    [Fact]
    public async Task A_renamed_folder_ends_the_writer_and_no_start_begins_another_ledger_in_its_place()
    {
        await Filled();
        Directory.Move(_ledger.Folder, _ledger.Folder + "-away");

        await Ends("removed or renamed");
        Directory.Delete(_ledger.Folder + "-away", recursive: true);
    }

    [Fact]
    public async Task When_a_ledger_is_removed_while_a_batch_is_written_nothing_of_the_batch_is_acknowledged()
    {
        await Filled();
        var outcome = await Support.Ledger.Soon(_ledger.Writer.Append(_ =>
        {
            File.Delete(_ledger.File);
            return [new EmptiedBody { Fixture = "bed" }];
        }));

        Assert.Equal((null, Reason.LedgerUnavailable), (outcome.Entry, outcome.Refusal!.Reason));
        await Ends("removed or renamed", idle: true);
    }

    [Theory]
    [InlineData("-wal", false)]
    [InlineData("-wal", true)]
    [InlineData("-shm", false)]
    [InlineData("-wal -shm", false)]
    public async Task A_removed_log_is_refused_once_and_nothing_is_lost(string beside, bool read)
    {
        await Filled();
        using var reader = read ? _ledger.Other() : null;
        _ = reader is null ? "" : Support.Ledger.Scalar(reader, "SELECT count(*) FROM entry");
        Array.ForEach(beside.Split(' '), b => File.Delete(_ledger.File + b));

        await IsBack();
    }

    [Fact]
    public async Task A_truncated_log_ends_the_writer_when_something_acknowledged_was_in_it()
    {
        await Filled();
        using (var log = new FileStream(_ledger.File + "-wal", FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            log.SetLength(0);
        }

        await Ends("was acknowledged, but is no longer in");
    }

    [Theory]
    [InlineData("PASSIVE")]
    [InlineData("RESTART")]
    [InlineData("TRUNCATE")]
    public async Task A_log_that_another_program_copies_causes_no_trouble(string how)
    {
        await Filled();
        for (var i = 0; i < 3; i++)
        {
            using var other = _ledger.Other();
            Assert.Equal("0", Support.Ledger.Scalar(other, $"PRAGMA wal_checkpoint({how})"));
            await _ledger.Do<AnswerBody>(Support.Ledger.Locate());
        }

        await _ledger.End();
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task Its_own_copying_of_the_log_causes_no_trouble()
    {
        await Filled();
        for (var i = 0; i < 10_000; i += 500)
        {
            await Support.Ledger.Soon(Task.WhenAll(Enumerable.Range(0, 500).Select(_ => _ledger.Writer.Append(Support.Ledger.Locate()))));
        }

        Assert.True(_ledger.Writer.Writable);
        Assert.True(new FileInfo(_ledger.File).Length > 1_000_000); // It was copied.
        Assert.True(new FileInfo(_ledger.File + "-wal").Length < 10_000_000);
        await _ledger.End();
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_service_takes_its_lock_again_when_the_lock_file_was_removed()
    {
        await _ledger.Begin();
        await _ledger.End();
        using var writer = await Service();
        File.Delete(Path.Combine(_ledger.Folder, "service.lock"));

        await Support.Ledger.Soon(Lost(writer));
        await Deadline.Until(
            async () => (await writer.Append(Support.Ledger.Locate())).Refusal is null, "an answer after its next attempt, which comes by itself");

        Assert.Throws<IOException>(() => FolderLock.Take(_ledger.Folder));
    }

    [Fact]
    public async Task A_service_ends_when_another_one_took_its_folder()
    {
        await _ledger.Begin();
        await _ledger.End();
        using var writer = await Service();
        File.Delete(Path.Combine(_ledger.Folder, "service.lock"));
        using var other = FolderLock.Take(_ledger.Folder);

        Assert.Equal(Reason.LedgerUnavailable, (await Support.Ledger.Soon(writer.Append(Support.Ledger.Locate()))).Refusal!.Reason);
        Assert.Contains("another service uses it", (await Support.Ledger.Soon(writer.Ended))!.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("closed/1-ledger-1.db", "move the folder closed away as well")]
    [InlineData("ledger.db-wal", "move ledger.db-wal away as well")]
    public void A_start_without_the_ledger_that_other_files_refer_to_is_refused(string left, string words)
    {
        Directory.CreateDirectory(Path.Combine(_ledger.Folder, "closed"));
        File.WriteAllText(Path.Combine(_ledger.Folder, left), "kept");

        var refused = Assert.Throws<InvalidDataException>(() => LedgerWriter.Open(_ledger.Folder, _ledger.Time, forService: true));

        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(_ledger.File));
        Assert.Equal("kept", File.ReadAllText(Path.Combine(_ledger.Folder, left)));
    }

    /// <summary>A ledger with entries in the file and in the log, and an old copy of its file.</summary>
    private async Task Filled()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows does not let an open file be removed or renamed");
        await _ledger.Begin();
        await _ledger.Do(Support.Ledger.Locate());
        await _ledger.Again();
        File.Copy(_ledger.File, _old);
        await Support.Ledger.Soon(Task.WhenAll(Enumerable.Range(0, 100).Select(_ => _ledger.Writer.Append(Support.Ledger.Locate()))));
        await _ledger.Again();
        await _ledger.Do(Support.Ledger.Locate());
    }

    /// <summary>The writer acknowledges nothing more, ends, and no start continues.</summary>
    private async Task Ends(string words, bool idle = false)
    {
        if (!idle)
        {
            Assert.Equal(Reason.LedgerUnavailable, await _ledger.Refused(Support.Ledger.Locate()));
        }

        var last = _ledger.Writer.Serial;
        var ended = Assert.IsType<InvalidDataException>(await Support.Ledger.Soon(_ledger.Writer.Ended));
        Assert.Contains(words, ended.Message, StringComparison.Ordinal);
        Assert.Contains($"entry {last} ", ended.Message, StringComparison.Ordinal);
        var refused = Assert.Throws<InvalidDataException>(() => LedgerWriter.Open(_ledger.Folder, _ledger.Time, forService: true));
        Assert.Contains("then remove ledger.lost", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>The writer refused once at most, continues after the last entry, and every entry is there.</summary>
    private async Task IsBack()
    {
        var last = _ledger.Writer.Serial;
        EntryBody? answer = null;
        for (var refused = 0; answer is null;)
        {
            var outcome = await Support.Ledger.Soon(_ledger.Writer.Append(Support.Ledger.Locate()));
            answer = outcome.Entry;
            Assert.True(refused > 0 || answer is null, "the change was not noticed");
            refused++;
        }

        Assert.Equal(last + 1, answer.Serial);
        await _ledger.End();
        Assert.Equal(last + 2, _ledger.Verify().Entries);
        Assert.True(_ledger.Verify().Whole);
        Assert.False(File.Exists(Path.Combine(_ledger.Folder, "ledger.lost")));
    }

    private static Task Lost(LedgerWriter writer)
    {
        var lost = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        writer.WritableChanged += (writable, _) => Assert.True(writable || lost.TrySetResult());
        return lost.Task;
    }

    private async Task<LedgerWriter> Service()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows does not let an open file be removed or renamed");
        var writer = LedgerWriter.Open(_ledger.Folder, _ledger.Time, forService: true);
        var started = writer.Append(_ => [new ServiceStartedBody { Program = ProgramVersion.Text, Host = "h", Process = 1 }], isStart: true);
        Assert.Null((await Support.Ledger.Soon(started)).Refusal);
        return writer;
    }
}
