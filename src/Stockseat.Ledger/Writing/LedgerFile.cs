using System.Globalization;
using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Rolling;

namespace Stockseat.Ledger.Writing;

/// <summary>Opens <c>ledger.db</c> the one right way.</summary>
public static class LedgerFile
{
    /// <summary>The file's name in the data folder.</summary>
    public const string Name = "ledger.db";

    /// <summary>Marks the file as a Stockseat ledger: the letters STST.</summary>
    public const int ApplicationId = 0x53545354;

    /// <summary>The version of the tables.</summary>
    public const int SchemaVersion = 1;

    /// <summary>How often a reader tries to open a ledger that rolls over.</summary>
    private const int OpenAgain = 6;

    /// <summary>Below it, two connections that write and checkpoint could damage the file.</summary>
    public static readonly Version LeastSqlite = new(3, 51, 3);

    internal const string Schema = $"""
        CREATE TABLE entry (
          serial INTEGER PRIMARY KEY, at TEXT NOT NULL, kind TEXT NOT NULL, fixture TEXT, revision INTEGER,
          client TEXT, tag TEXT, body TEXT NOT NULL, hash BLOB NOT NULL) STRICT;
        -- What a start needs, without a scan; answers and refusals, the many, are not in it, but for refused pushes, which void a measurement.
        CREATE INDEX entry_standing ON entry (fixture, kind, serial) WHERE kind NOT IN ('answer', 'refusal');
        CREATE INDEX entry_refused_push ON entry (fixture, serial) WHERE {LedgerQueries.RefusedPushes};
        """;

    private static readonly string MakeTables = $"BEGIN IMMEDIATE; {Schema} PRAGMA application_id={ApplicationId}; PRAGMA user_version={SchemaVersion}; COMMIT";

    /// <summary>Opens for writing; makes the file, and has its name on the disk, before anything is served.</summary>
    /// <param name="folder">The data folder; made when it is not there.</param>
    /// <param name="afterFailure">Whether a write or a sync failed before: then nothing is served until the log has been copied whole into the
    /// database, since the kernel calls a page clean whose sync failed, and what is written after it would hang on it.</param>
    public static SqliteConnection OpenWriter(string folder, bool afterFailure = false)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, Name);
        var connection = Connect(path, SqliteOpenMode.ReadWriteCreate);
        try
        {
            RequireSqlite(connection);
            var empty = Scalar(connection, "SELECT count(*) FROM sqlite_schema") == "0";
            if (!empty)
            {
                RequireLedger(connection, path); // before anything of a foreign file is changed
            }

            Require("journal mode", Scalar(connection, "PRAGMA journal_mode=WAL"), "wal");
            Execute(connection, "PRAGMA synchronous=FULL");
            Require("synchronous", Scalar(connection, "PRAGMA synchronous"), "2");
            if (empty)
            {
                Execute(connection, MakeTables);
            }

            RequireLedger(connection, path);
            if (!Checkpoint(connection) && afterFailure)
            {
                throw new IOException("a reader keeps the log from being copied into the database; it is tried again");
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

    /// <summary>Opens for reading, beside a running service or where it lies; changes nothing.</summary>
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

                    // It rolled over meanwhile: the log beside the name may be the new ledger's, and the file that is open the old one.
                    connection.Dispose();
                }
                else if (ClosedLedgers.Ending(folder) is { } ending)
                {
                    return OpenClosed(ending); // for the moment until the new one is in its place
                }
            }
            catch (SqliteException e) when (again < OpenAgain - 1 && (e.SqliteErrorCode == 14 || ClosedLedgers.Newest(folder) != closed))
            {
                // It was moved just now: the ledger rolls over.
            }
        }

        return File.Exists(path) ? OpenFile(path)
            : throw new FileNotFoundException($"there is no {Name} in {Path.GetFullPath(folder)}; name the data folder with --data");
    }

    /// <summary>Makes a new file with its tables, for a ledger that is put in its place when it is whole. It has no log beside it.</summary>
    internal static SqliteConnection Make(string path)
    {
        var connection = Connect(path, SqliteOpenMode.ReadWriteCreate);
        try
        {
            RequireSqlite(connection);
            Execute(connection, "PRAGMA synchronous=FULL");
            Require("synchronous", Scalar(connection, "PRAGMA synchronous"), "2");
            Execute(connection, MakeTables);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens a ledger's file that nothing changes any more, without a log beside it.</summary>
    public static SqliteConnection OpenClosed(string path)
    {
        var connection = Connect($"file:{Uri.EscapeDataString(Path.GetFullPath(path)).Replace("%2F", "/", StringComparison.Ordinal)}?immutable=1", SqliteOpenMode.ReadOnly);
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

    /// <summary>Opens a ledger that has ended, with its log copied whole into it.</summary>
    /// <exception cref="IOException">A reader is in the way.</exception>
    internal static SqliteConnection OpenEnded(string path, int busyMilliseconds)
    {
        var connection = Connect(path, SqliteOpenMode.ReadWrite);
        try
        {
            RequireLedger(connection, path);
            Execute(connection, $"PRAGMA synchronous=FULL; PRAGMA busy_timeout={busyMilliseconds.ToString(CultureInfo.InvariantCulture)}");
            return Checkpoint(connection) ? connection : throw new IOException("a reader keeps the log from being copied into the ledger that has ended; it is tried again");
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Opens a ledger's file of any name for reading.</summary>
    internal static SqliteConnection OpenFile(string path)
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
                // A stopped ledger in a folder that this user may only read: nothing can change it meanwhile.
                connection.Dispose();
                return OpenClosed(path);
            }

            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Copies the whole log into the database and empties it; false when a reader is in the way.</summary>
    private static bool Checkpoint(SqliteConnection connection) => Scalar(connection, "PRAGMA wal_checkpoint(TRUNCATE)") == "0";

    internal static void Execute(SqliteConnection connection, string sql)
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
            throw new InvalidOperationException($"SQLite is {connection.ServerVersion}; {LeastSqlite} or later is needed: install the library that came with the program");
        }
    }

    private static void RequireLedger(SqliteConnection connection, string path)
    {
        var (application, version) = (Scalar(connection, "PRAGMA application_id"), Scalar(connection, "PRAGMA user_version"));
        if (application != ApplicationId.ToString(CultureInfo.InvariantCulture))
        {
            throw new InvalidDataException($"{path} is no ledger of this service: its application id is {application}, {ApplicationId} was expected");
        }

        if (version != SchemaVersion.ToString(CultureInfo.InvariantCulture))
        {
            throw new NotSupportedException($"{path} has tables of version {version}; this program knows {SchemaVersion}: use the program that wrote it");
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
