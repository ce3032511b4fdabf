using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>A data folder for one test, with a writer on it.</summary>
internal sealed class Ledger : IDisposable
{
    public static readonly DateTimeOffset Start = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);

    public Ledger(TimeProvider? time = null) => Time = time ?? TimeProvider.System;

    public TimeProvider Time { get; }

    public string Folder { get; } = Directory.CreateTempSubdirectory("stockseat-ledger-").FullName;

    public string File => Path.Combine(Folder, LedgerFile.Name);

    public LedgerWriter Writer { get; private set; } = null!;

    public FixtureFolder Fixture { get; set; } = new("bed", [Revision(1)], []);

    /// <summary>How the next writer seals; null: it does not seal.</summary>
    public SealPolicy? Seals { get; set; }

    /// <summary>After how many entries the next writer writes a snapshot; null: never.</summary>
    public long? SnapshotEvery { get; set; }

    /// <summary>The version of the tables that a new ledger gets.</summary>
    public int Tables { get; init; } = LedgerFile.SchemaVersion;

    /// <summary>The version of the rules by which it is asked, and of the bodies that come of that.</summary>
    public int Rules { get; init; } = EntryBody.CurrentVersion;

    /// <summary>The id that a new ledger gets.</summary>
    public string Id { get; init; } = "ledger-1";

    /// <summary>The size at which the ledger rolls over; null: never.</summary>
    public long? RollAt { get; init; }

    /// <summary>Whether a start finds that the previous run ended without a clean stop.</summary>
    public bool Unclean { get; set; }

    private static readonly ConcurrentDictionary<(int Number, string More), RevisionFile> Files = new();

    /// <summary>A revision of the fixture bed: 80 mm stock on two pins. Each is read and prepared once.</summary>
    public static RevisionFile Revision(int number, string more = "") => Files.GetOrAdd((number, more), static key => Read(key.Number, key.More));

    private static RevisionFile Read(int number, string more)
    {
        var text = $$"""
            {
              "fixture": "bed", "revision": {{number}},
              "calibrated": { "at": "2026-11-20T09:12:00Z", "by": "setter", "method": "touched", "note": "" },
              "nest": { "pins": { "spacing": "60 mm", "diameter": "12 mm" } },
              "taught": { "diameter": "80 mm", "position": { "x": "0 mm", "y": "0 mm", "z": "0 mm" }, "orientation": { "w": 1, "x": 0, "y": 0, "z": 0 } },
              "frame": { "seatAxis": { "x": 0, "y": 1, "z": 0 }, "normal": { "x": 0, "y": 0, "z": 1 } }{{more}}
            }
            """;
        var reading = RevisionReader.Read(Encoding.UTF8.GetBytes(text), "bed/r.json", "bed", number);
        reading.Revision?.Prepare();
        Assert.Empty(reading.Faults);
        return new(number, "bed/r.json", "", reading);
    }

    /// <summary>Opens the ledger as the service does: start recorded, folders read, first revision adopted.</summary>
    public async Task<Ledger> Begin()
    {
        if (!System.IO.File.Exists(File) && Tables != LedgerFile.SchemaVersion)
        {
            LedgerFile.Make(File, Tables).Dispose();
        }

        Writer = LedgerWriter.Open(Folder, Time, Seals, RollAt, SnapshotEvery);
        var outcome = await Soon(Writer.Append(
            s => OfRules([.. Unclean ? [new UncleanStopBody { Last = Writer.Serial }] : (EntryBody[])[],
                new ServiceStartedBody { Ledger = Writer.LastKind is null ? Id : null, Program = ProgramVersion.Text, Host = "h", Process = 1 },
                .. Adopting.OfFolders(s, FirstAdoption.Automatic)]),
            [Fixture]));
        Assert.Null(outcome.Refusal);
        return this;
    }

    /// <summary>Opens the ledger without writing an entry.</summary>
    public Ledger Open()
    {
        Writer = LedgerWriter.Open(Folder, Time);
        return this;
    }

    public async Task End()
    {
        Assert.Null((await Soon(Writer.AppendLast(_ => [new ServiceStoppedBody()]))).Refusal);
        await Close();
    }

    /// <summary>Ends the writer without writing an entry.</summary>
    public async Task Close()
    {
        Assert.Null(await Soon(Writer.Stop()));
        Writer.Dispose();
        Writer = null!;
    }

    /// <summary>Ends the writer without a last entry.</summary>
    public async Task Kill()
    {
        Assert.Null(await Soon(Writer.Stop()));
        Writer.Dispose();
        Writer = null!;
    }

    /// <summary>Waits until a turn began after all that was answered, and ended: a snapshot that was due is written by then.</summary>
    public async Task Settle()
    {
        await Soon(Writer.NextTurn()); // This one may have begun before.
        await Soon(Writer.NextTurn());
    }

    public async Task Again()
    {
        await End();
        await Begin();
    }

    public static LocateAsk Locate(double? diameter = 0.09, string? request = null, string? lot = null, string client = "bench") =>
        new(new(client, "demo", "127.0.0.1:1", "7", request), "bed") { DiameterMetres = diameter, Lot = lot, LotTerms = lot is null ? null : new() };

    public static MeasureAsk Measured(double diameter, string? request = null, string? gauge = null, string? lot = null) =>
        new(new("gauge", null, null, null, request), "bed") { ReadingsMetres = [diameter], Gauge = gauge, Lot = lot, LotTerms = lot is null ? null : new(),
            Terms = new(gauge, null, TimeSpan.FromHours(8)) };

    public static ConfirmAsk Confirm(long serial, string? request = null, string? by = null) =>
        new(new("bench", null, null, null, request), serial) { ReadBack = by is null ? new Dictionary<string, string>() : new() { ["by"] = by } };

    /// <summary>Reads the whole shift of an answer back.</summary>
    public static ConfirmAsk Received(AnswerBody answer, string? request = null) => new(new("bench", null, null, null, request), answer.Serial)
    {
        ReadBack = new[] { "bx", "by", "bz" }.Zip(answer.ShiftBase).ToDictionary(
            p => p.First, p => FixedPoint.Text(p.Second, answer.Decimals, answer.Exponent(p.First))),
    };

    public static DoneAsk Done(long serial, string? request = null) => new(new("bench", null, null, null, request), serial);

    /// <summary>An answer is received and carried out; the entry that says so.</summary>
    public async Task<DoneBody> CarryOut(AnswerBody answer)
    {
        await Do<ConfirmationBody>(Received(answer));
        return await Do<DoneBody>(Done(answer.Serial));
    }

    private EntryBody[] OfRules(EntryBody[] bodies)
    {
        Array.ForEach(bodies, b => b.Version = Rules);
        return bodies;
    }

    public async Task<EntryBody> Do(Ask ask)
    {
        var outcome = await Soon(Writer.Append(ask with { Rules = Rules }), $"the answer to {ask}");
        Assert.Null(outcome.Refusal);
        return outcome.Entry!;
    }

    public async Task<T> Do<T>(Ask ask) => Assert.IsType<T>(await Do(ask));

    public async Task<Reason> Refused(Ask ask)
    {
        var outcome = await Soon(Writer.Append(ask), $"the answer to {ask}");
        Assert.Null(outcome.Entry);
        return outcome.Refusal!.Reason;
    }

    /// <summary>Waits until an entry is committed.</summary>
    public async Task Reaches(long serial)
    {
        for (var next = Writer.NextCommit; Writer.Serial < serial; next = Writer.NextCommit)
        {
            await Soon(next, $"entry {serial}");
        }
    }

    public List<EntryRow> Rows()
    {
        using var reader = LedgerFile.OpenReader(Folder);
        return LedgerQueries.After(reader, 0, int.MaxValue);
    }

    public Verification Verify(VerifyOptions? options = null) => LedgerVerifier.Verify(Folder, options ?? new(), CancellationToken.None);

    /// <summary>Another connection, as somebody with a database tool would open it.</summary>
    public SqliteConnection Other()
    {
        var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        return connection;
    }

    public int Sql(string sql)
    {
        using var connection = Other();
        return Sql(connection, sql);
    }

    public static int Sql(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteNonQuery();
    }

    public static string? Scalar(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToString(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    /// <summary>Waits as long as a test may wait; a failure says what it waited for.</summary>
    public static Task<T> Soon<T>(Task<T> task, [CallerArgumentExpression(nameof(task))] string what = "") => task.Within(what);

    /// <inheritdoc cref="Soon{T}(Task{T}, string)"/>
    public static Task Soon(Task task, [CallerArgumentExpression(nameof(task))] string what = "") => task.Within(what);

    public void Dispose()
    {
        Writer?.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
