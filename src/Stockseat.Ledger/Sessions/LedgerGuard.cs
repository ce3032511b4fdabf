using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>
/// Checks whether the ledger's files are still the ones that are open, and whether another program wrote in them. A file can stay open after it has lost its
/// name, and entries acknowledged into it would then be lost. An open file can be removed only on Linux; on other systems this looks only for writes through
/// SQLite.
/// </summary>
internal sealed class LedgerGuard : IDisposable
{
    /// <summary>Asks how much of the log was copied, without copying anything.</summary>
    private const int OnlyAsk = -1;

    /// <summary>
    /// When the log has this many frames, it is copied into the database. SQLite would do that by itself, but then nobody could tell who changed the file.
    /// </summary>
    private const int CopyFrom = 1000;

    private const string Anew = "the ledger is opened again: find out who did that, leave the files to the service, and run stockseat ledger verify";

    private readonly string _path;
    private readonly string _logPath;
    private readonly string _indexPath;
    private readonly SqliteConnection _connection;
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _version;
    private readonly FolderLock? _alone;
    private readonly FileFacts? _index;
    private long _written;
    private FileFacts? _ledger;
    private FileFacts? _log;
    private (int All, int Copied) _frames;

    /// <param name="connection">The writer's connection, with its log open.</param>
    /// <param name="alone">The lock of the folder; null: the lock is not held.</param>
    public LedgerGuard(SqliteConnection connection, FolderLock? alone)
    {
        (_connection, _database, _alone) = (connection, connection.Handle!, alone);
        (_path, _logPath, _indexPath) = (connection.DataSource, connection.DataSource + "-wal", connection.DataSource + "-shm");
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v3(_database, "PRAGMA data_version", raw.SQLITE_PREPARE_PERSISTENT, out _version), _database);
        _written = Written();
        (_ledger, _log, _index) = (FileFacts.Of(_path), FileFacts.Of(_logPath), FileFacts.Of(_indexPath));
        _frames = Frames();
        LedgerTables.Require(connection, _path); // Once more: from here on every write of another program is noticed.
    }

    /// <summary>Which file is open; null: not known.</summary>
    public FileFacts? Ledger => _ledger;

    /// <summary>Called before a batch: checks that the names belong to the open files, and that nobody else changed those files.</summary>
    /// <exception cref="LedgerDisturbedException">One of these is not so.</exception>
    public void Look()
    {
        LookAtNames(out var ledger, out var log);
        if (_index is { } index && !Same(index, FileFacts.Of(_indexPath)))
        {
            throw new LedgerDisturbedException(Disturbance.LogReplaced, $"{_indexPath} was removed or replaced while the service wrote the ledger; {Anew}");
        }

        if (ledger != _ledger || log != _log)
        {
            LookAtContent(ledger, log);
        }

        if (_alone is { IsNamed: false })
        {
            throw new LedgerDisturbedException(
                Disturbance.LockReplaced,
                $"service.lock in {Path.GetDirectoryName(_path)} was removed or replaced while the service ran, so another service could start there; "
                + "the lock is taken again: leave the file alone");
        }
    }

    /// <summary>Called in the transaction of a batch, when nobody else can write any more: checks whether somebody has written.</summary>
    /// <param name="head">The newest entry that the service knows.</param>
    /// <exception cref="LedgerDisturbedException">Another entry is the newest.</exception>
    /// <exception cref="ForeignTablesException">The tables are no longer those of the service.</exception>
    public void LookInside(Head head)
    {
        if (Written() is var written && written == _written)
        {
            return;
        }

        LedgerTables.Require(_connection, _path);
        var isNewest = LedgerQueries.Before(_connection, long.MaxValue, 1) is [var newest]
            ? newest.Serial == head.Serial && newest.Hash.AsSpan().SequenceEqual(head.Hash)
            : head.Serial == 0;
        if (!isNewest)
        {
            throw new LedgerDisturbedException(
                Disturbance.Written,
                $"another program wrote in {_path}, which only the service may write: entry {head.Serial} is no longer the newest; {Anew}");
        }

        // It changed older rows, which a verification finds, or it only copied the log.
        _written = written;
    }

    /// <summary>Called after the commit and before the answers go: a name may have been lost since <see cref="Look"/>.</summary>
    /// <exception cref="LedgerDisturbedException">A name was lost.</exception>
    public void LookAgain()
    {
        LookAtNames(out _, out _log);
        _frames = Frames();
    }

    /// <summary>Copies the log into the database when it is long enough. A reader may prevent it; it is tried again after the next batch.</summary>
    /// <exception cref="LedgerDisturbedException">Somebody else changed the files.</exception>
    public void CopyLog()
    {
        if (_frames.All >= CopyFrom && _frames.Copied < _frames.All)
        {
            Look();
            Copy();
        }
    }

    /// <summary>Copies the whole log into the database; false when a reader, or another program that is copying it, prevents that.</summary>
    /// <exception cref="LedgerDisturbedException">Somebody else changed the files.</exception>
    public bool CopyAll()
    {
        Look();
        var result = Copy();
        SqliteException.ThrowExceptionForRC(result == raw.SQLITE_BUSY ? raw.SQLITE_OK : result, _database);
        return result == raw.SQLITE_OK && _frames.Copied == _frames.All;
    }

    /// <summary>Called before the files are closed after a failure.</summary>
    public void Leave(Exception cause)
    {
        if (_version.IsClosed)
        {
            return;
        }

        switch ((cause as LedgerDisturbedException)?.By)
        {
            case Disturbance.LogReplaced:
                Copy(); // The acknowledged entries are in the open log, which has no name any more.
                break;
            case Disturbance.Replaced or Disturbance.Overwritten or Disturbance.Written:
                LedgerFile.KeepLog(_connection); // The log must not be copied into a file that it does not belong to.
                break;
        }
    }

    public void Dispose() => _version.Dispose();

    /// <summary>Copies as much of the log as readers allow. It does not wait for them.</summary>
    private int Copy()
    {
        var result = raw.sqlite3_wal_checkpoint_v2(_database, "main", raw.SQLITE_CHECKPOINT_PASSIVE, out _, out _);
        _frames = Frames();
        _ledger = _ledger is { } open && FileFacts.Of(_path) is { } now && now.SameFile(open) ? now : _ledger;
        return result;
    }

    private void LookAtNames(out FileFacts? ledger, out FileFacts? log)
    {
        (ledger, log) = (FileFacts.Of(_path), FileFacts.Of(_logPath));
        if (_ledger is { } file && !Same(file, ledger))
        {
            var how = ledger is null ? "removed or renamed" : "replaced by another file";
            throw new LedgerDisturbedException(Disturbance.Replaced, $"{_path} was {how} while the service wrote it");
        }

        if (_log is { } open && !Same(open, log))
        {
            throw new LedgerDisturbedException(Disturbance.LogReplaced, $"{_logPath} was removed or replaced while the service wrote it; {Anew}");
        }
    }

    /// <summary>
    /// Whether SQLite itself changed the files: any program may make it copy the log. If not, the values that were read from them are no longer valid.
    /// </summary>
    private void LookAtContent(FileFacts? ledger, FileFacts? log)
    {
        var frames = Frames();
        if (ledger != _ledger && frames.Copied == _frames.Copied && frames.All >= _frames.All)
        {
            throw new LedgerDisturbedException(
                Disturbance.Overwritten, $"{_path} was overwritten while the service had it open: it had {Text(_ledger)}, now {Text(ledger)}");
        }

        if (log != _log && frames == _frames && Written() == _written)
        {
            throw new LedgerDisturbedException(
                Disturbance.Written, $"{_logPath} was overwritten while the service had it open: it had {Text(_log)}, now {Text(log)}; {Anew}");
        }

        (_ledger, _log, _frames) = (ledger, log, frames);
    }

    private static bool Same(FileFacts open, FileFacts? named) => named is { } now && open.SameFile(now);

    private static string Text(FileFacts? facts) => facts is not { } f ? "none" : string.Create(
        CultureInfo.InvariantCulture, $"{f.Bytes} bytes changed at {DateTimeOffset.UnixEpoch.AddTicks(f.ChangedNanoseconds / 100):yyyy-MM-ddTHH:mm:ss.fffZ}");

    private (int All, int Copied) Frames()
    {
        _ = raw.sqlite3_wal_checkpoint_v2(_database, "main", OnlyAsk, out var all, out var copied);
        return (all, copied);
    }

    /// <summary>A number that changes when another connection commits.</summary>
    private long Written()
    {
        var result = raw.sqlite3_step(_version);
        var version = raw.sqlite3_column_int64(_version, 0);
        var reset = raw.sqlite3_reset(_version);
        SqliteException.ThrowExceptionForRC(result == raw.SQLITE_ROW ? reset : result, _database);
        return version;
    }
}
