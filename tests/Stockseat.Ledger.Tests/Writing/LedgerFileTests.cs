using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class LedgerFileTests
{
    [Fact]
    public void A_writer_s_connection_keeps_what_is_committed()
    {
        using var ledger = new Support.Ledger();
        using var connection = LedgerFile.OpenWriter(ledger.Folder);

        Assert.Equal("wal", Support.Ledger.Scalar(connection, "PRAGMA journal_mode"));
        Assert.Equal("2", Support.Ledger.Scalar(connection, "PRAGMA synchronous"));
        Assert.Equal($"{0x53545354}", Support.Ledger.Scalar(connection, "PRAGMA application_id"));
        Assert.Equal("2", Support.Ledger.Scalar(connection, "PRAGMA user_version"));
        Assert.True(Version.Parse(connection.ServerVersion) >= new Version(3, 51, 3));
        Assert.Equal("0", Support.Ledger.Scalar(connection, "SELECT count(*) FROM sqlite_schema WHERE type = 'trigger'"));
        Assert.Equal([ledger.File], Directory.GetFiles(ledger.Folder, "*.db"));
    }

    [Fact]
    public void Opening_again_keeps_the_tables()
    {
        using var ledger = new Support.Ledger();
        LedgerFile.OpenWriter(ledger.Folder).Dispose();

        using var connection = LedgerFile.OpenWriter(ledger.Folder);

        Assert.Equal("2", Support.Ledger.Scalar(connection, "SELECT count(*) FROM sqlite_schema WHERE type = 'table'"));
    }

    [Fact]
    public void A_foreign_database_is_refused_and_not_touched()
    {
        using var ledger = new Support.Ledger();
        ledger.Sql("CREATE TABLE other (a)");
        var before = File.ReadAllBytes(ledger.File);

        Assert.Contains("is not a ledger", Assert.Throws<InvalidDataException>(() => LedgerFile.OpenWriter(ledger.Folder)).Message, StringComparison.Ordinal);
        Assert.Throws<InvalidDataException>(() => LedgerFile.OpenReader(ledger.Folder));
        Assert.Equal(before, File.ReadAllBytes(ledger.File));
    }

    [Fact]
    public void A_file_that_is_not_a_database_is_refused_and_not_touched()
    {
        using var ledger = new Support.Ledger();
        File.WriteAllText(ledger.File, new string('x', 5000));

        Assert.Throws<SqliteException>(() => LedgerFile.OpenWriter(ledger.Folder));
        Assert.Throws<SqliteException>(() => LedgerFile.OpenReader(ledger.Folder));
        Assert.Equal(new string('x', 5000), File.ReadAllText(ledger.File));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void Tables_of_an_unknown_version_are_refused(int version)
    {
        using var ledger = new Support.Ledger();
        LedgerFile.OpenWriter(ledger.Folder).Dispose();
        ledger.Sql($"PRAGMA user_version={version}");

        Assert.Contains($"version {version}", Assert.Throws<NotSupportedException>(() => LedgerFile.OpenWriter(ledger.Folder)).Message,
            StringComparison.Ordinal);
        Assert.Throws<NotSupportedException>(() => LedgerFile.OpenReader(ledger.Folder));
    }

    [Fact]
    public void There_is_nothing_to_read_in_an_empty_folder()
    {
        using var ledger = new Support.Ledger();

        Assert.Throws<FileNotFoundException>(() => LedgerFile.OpenReader(ledger.Folder));
        Assert.Empty(Directory.GetFiles(ledger.Folder));
    }

    [Fact]
    public async Task A_reader_beside_a_running_writer_sees_what_was_acknowledged()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var reader = LedgerFile.OpenReader(ledger.Folder);
        for (var i = 3; i < 20; i++)
        {
            var told = await ledger.Do(Support.Ledger.Locate());
            Assert.Equal(told.At, LedgerQueries.Find(reader, i)!.At);
        }
    }

    [Fact]
    public async Task A_reader_of_a_stopped_ledger_changes_nothing_in_it()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.End();
        Assert.False(File.Exists(ledger.File + "-wal"));
        var bytes = File.ReadAllBytes(ledger.File);

        Assert.Equal(3, ledger.Verify().Entries);

        Assert.Equal(bytes, File.ReadAllBytes(ledger.File));
        Assert.False(File.Exists(ledger.File + "-wal") && new FileInfo(ledger.File + "-wal").Length > 0); // SQLite's readers may leave an empty log
    }

    [Fact]
    public async Task A_reader_cannot_write()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var reader = LedgerFile.OpenReader(ledger.Folder);

        Assert.Throws<SqliteException>(() => Support.Ledger.Sql(reader, "DELETE FROM entry"));
    }

    [Fact]
    public async Task A_stopped_ledger_in_a_read_only_folder_can_be_read()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.UserName == "root", "root may write to every folder, and Windows has no such file mode");
        using var ledger = await new Support.Ledger().Begin();
        await ledger.End();
#pragma warning disable CA1416 // skipped there
        var mode = File.GetUnixFileMode(ledger.Folder);
        File.SetUnixFileMode(ledger.Folder, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        try
        {
            Assert.True(ledger.Verify().Whole);
        }
        finally
        {
            File.SetUnixFileMode(ledger.Folder, mode);
        }
#pragma warning restore CA1416
    }

    [Fact]
    public void Only_one_service_uses_a_folder()
    {
        using var ledger = new Support.Ledger();
        var first = FolderLock.Take(ledger.Folder);

        var refused = Assert.Throws<IOException>(() => FolderLock.Take(ledger.Folder));
        Assert.Contains("stop the other service", refused.Message, StringComparison.Ordinal);

        first.Dispose();
        FolderLock.Take(ledger.Folder).Dispose();
    }
}
