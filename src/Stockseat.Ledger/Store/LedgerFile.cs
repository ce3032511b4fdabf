using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Stockseat.Ledger.Store;

/// <summary>Opens <c>ledger.db</c> in the one right way.</summary>
public static class LedgerFile
{
    /// <summary>The name of the file in the data folder.</summary>
    public const string Name = "ledger.db";

    /// <summary>Marks the file as a Stockseat ledger: the letters STST.</summary>
    public const int ApplicationId = 0x53545354;

    /// <summary>The version of the tables in new ledgers; ledgers with tables of older versions are continued as they are.</summary>
    public const int SchemaVersion = LedgerTables.Newest;

    /// <summary>How often a reader tries to open a ledger that is rolling over.</summary>
    private const int OpenAgain = 6;

    // The numbers of SQLite's connection settings.
    private const int Triggers = 1003;
    private const int NoCheckpointOnClose = 1006;
    private const int Defensive = 1010;
    private const int Views = 1015;
    private const int TrustedSchema = 1017;

    /// <summary>In older versions, two connections that write and checkpoint at the same time could damage the file.</summary>
    public static readonly Version LeastSqlite = new(3, 51, 3);

    /// <summary>
    /// Opens the ledger for writing. It makes the file when there is none, and makes sure that its name is on the disk before anything is served.
    /// </summary>
    /// <param name="folder">The data folder; it is made when it does not exist.</param>
    /// <param name="afterFailure">Whether a write or a sync failed before. Then nothing is served until the whole log has been copied into the database: the
    /// kernel calls a page clean even when its sync failed, and later writes would depend on that page.</param>
    public static SqliteConnection OpenWriter(string folder, bool afterFailure = false)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, Name);
        var connection = Connect(path, File.Exists(path) ? SqliteOpenMode.ReadWrite : SqliteOpenMode.ReadWriteCreate);
        try
        {
            RequireSqlite(connection);
            var empty = Scalar(connection, "SELECT count(*) FROM sqlite_schema") == "0";
            if (!empty)
            {
                RequireLedger(connection, path); // Before anything is changed in a file that may not be ours.
                LedgerTables.Require(connection, path);
            }

            Require("journal mode", Scalar(connection, "PRAGMA journal_mode=WAL"), "wal");
            Execute(connection, "PRAGMA synchronous=FULL; PRAGMA wal_autocheckpoint=0"); // LedgerGuard copies the log, and looks before and after.
            Require("synchronous", Scalar(connection, "PRAGMA synchronous"), "2");
            if (empty)
            {
                Execute(connection, LedgerTables.Make(SchemaVersion));
            }

            RequireLedger(connection, path);
            if (!Checkpoint(connection) && afterFailure)
            {
                throw new IOException("a reader keeps the log from being copied into the database; copying is tried again");
            }

            DirectorySync.Sync(folder);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens the ledger for reading, beside a running service or without one; changes nothing.</summary>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    public static SqliteConnection OpenReader(string folder)
    {
        var path = Path.Combine(folder, Name);
        for (var again = 0; again < OpenAgain; again++)
        {
            var closed = ClosedLedgers.Newest(folder);
            try
            {
                if (File.Exists(path))
                {
                    var connection = OpenFile(path);
                    if (ClosedLedgers.Newest(folder) == closed)
                    {
                        return connection;
                    }

                    // The ledger rolled over meanwhile: the log of that name may belong to the new ledger, and the open file is the old one.
                    connection.Dispose();
                }
                else if (ClosedLedgers.Leaving(folder).LastOrDefault() is { } leaving)
                {
                    return OpenClosed(leaving); // For the short time until the new ledger is in its place.
                }
            }
            catch (SqliteException e) when (again < OpenAgain - 1 && (e.SqliteErrorCode == 14 || ClosedLedgers.Newest(folder) != closed))
            {
                // The file was moved just now: the ledger is rolling over.
            }
        }

        return File.Exists(path) ? OpenFile(path)
            : throw new FileNotFoundException($"there is no {Name} in {Path.GetFullPath(folder)}; name the data folder with --data");
    }

    /// <summary>Makes a new file with its tables, for a ledger that is moved to its place when it is complete. It has no log beside it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="version">The version of the tables.</param>
    public static SqliteConnection Make(string path, int version = SchemaVersion)
    {
        var connection = Connect(path, SqliteOpenMode.ReadWriteCreate);
        try
        {
            RequireSqlite(connection);
            Execute(connection, "PRAGMA synchronous=FULL");
            Require("synchronous", Scalar(connection, "PRAGMA synchronous"), "2");
            Execute(connection, LedgerTables.Make(version));
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens the file of a ledger that does not change any more, without a log beside it unless its name says that there is one.</summary>
    public static SqliteConnection OpenClosed(string path) => ClosedLedgers.IsHeld(path) ? OpenFile(path) : OpenImmutable(path);

    private static SqliteConnection OpenImmutable(string path)
    {
        var connection = Connect($"file:{Uri.EscapeDataString(Path.GetFullPath(path)).Replace("%2F", "/", StringComparison.Ordinal)}?immutable=1",
            SqliteOpenMode.ReadOnly);
        try
        {
            RequireSqlite(connection);
            RequireLedger(connection, path);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens a ledger that has ended, and copies its log into it. It does not wait for a reader that prevents that.</summary>
    /// <param name="path">The file.</param>
    /// <param name="held">Whether the end of the log is not in the file yet, because a reader began before that end was written.</param>
    internal static SqliteConnection OpenEnded(string path, out bool held)
    {
        var connection = Connect(path, SqliteOpenMode.ReadWrite);
        try
        {
            RequireLedger(connection, path);
            Execute(connection, "PRAGMA synchronous=FULL");
            // What was copied is synced. It does not matter whether somebody is reading: later readers read only the database, and keep the file.
            var result = raw.sqlite3_wal_checkpoint_v2(connection.Handle!, "main", raw.SQLITE_CHECKPOINT_PASSIVE, out var all, out var copied);
            held = result == raw.SQLITE_BUSY || copied < all; // Busy: another program is copying it right now.
            SqliteException.ThrowExceptionForRC(result == raw.SQLITE_BUSY ? raw.SQLITE_OK : result, connection.Handle!);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens the file of a ledger, of any name, for reading.</summary>
    public static SqliteConnection OpenFile(string path)
    {
        var connection = Connect(path, SqliteOpenMode.ReadOnly);
        try
        {
            RequireSqlite(connection);
            try
            {
                RequireLedger(connection, path);
            }
            catch (SqliteException e) when (e.SqliteErrorCode is 8 or 14 && !File.Exists(path + "-wal"))
            {
                // A ledger without a service, in a folder that this user may only read: nothing can change it meanwhile.
                connection.Dispose();
                return OpenImmutable(path);
            }

            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Copies the whole log into the database and empties it; false when a reader prevents that.</summary>
    private static bool Checkpoint(SqliteConnection connection) => Scalar(connection, "PRAGMA wal_checkpoint(TRUNCATE)") == "0";

    /// <summary>Makes the log stay as it is when the connection is closed.</summary>
    internal static void KeepLog(SqliteConnection connection) => _ = raw.sqlite3_db_config(connection.Handle!, NoCheckpointOnClose, 1, out _);

    public static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static SqliteConnection Connect(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            Pooling = false,
            DefaultTimeout = 5,
        }.ToString());
        connection.Open();

        // Nothing that somebody put into a ledger may run here: no trigger, view or function of theirs.
        foreach (var (option, value) in ((int, int)[])[(Triggers, 0), (Views, 0), (Defensive, 1), (TrustedSchema, 0)])
        {
            _ = raw.sqlite3_db_config(connection.Handle!, option, value, out _);
        }

        return connection;
    }

    private static string? Scalar(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToString(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    private static void RequireSqlite(SqliteConnection connection)
    {
        if (Version.Parse(connection.ServerVersion) < LeastSqlite)
        {
            throw new InvalidOperationException(
                $"SQLite is {connection.ServerVersion}; {LeastSqlite} or later is needed: install the library that came with the program");
        }
    }

    private static void RequireLedger(SqliteConnection connection, string path)
    {
        var (application, version) = (Scalar(connection, "PRAGMA application_id"), Scalar(connection, "PRAGMA user_version"));
        if (application != ApplicationId.ToString(CultureInfo.InvariantCulture))
        {
            throw new InvalidDataException($"{path} is not a ledger of this service: its application id is {application}; {ApplicationId} was expected");
        }

        if (!LedgerTables.Knows(version))
        {
            throw new NotSupportedException(
                $"{path} has tables of version {version}; this program knows {LedgerTables.Oldest} to {SchemaVersion}: use the program that wrote it");
        }
    }

    private static void Require(string what, string? value, string expected)
    {
        if (value != expected)
        {
            throw new InvalidOperationException($"SQLite's {what} is {value}; {expected} was asked for and is needed: use a local file system");
        }
    }
}
