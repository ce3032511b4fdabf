using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>
/// The ledger opened for writing, and the situation after its last committed entry. After a failed write or sync it is thrown away completely, and the next one
/// reads everything from the disk again.
/// </summary>
internal sealed class LedgerSession : IDisposable
{
    /// <summary>The most bytes of revisions that may be carried; the rest of the space is for holds, lots and the like.</summary>
    private const int MostCarried = BodyJson.LongestRolledOver - (8 << 20);

    private readonly SqliteConnection _connection;
    private readonly string _folder;
    private readonly EntryInsert _insert;
    private readonly LedgerGuard? _guard; // There is none for a ledger that is being made beside the current one.
    private readonly ArrayBufferWriter<byte> _buffer = new(4096);
    private readonly Utf8JsonWriter _json;
    private readonly RequestOutcomes _requests;

    private bool _carriesTooMuch;

    /// <summary>The entries from which snapshots are made; null: no snapshots are written.</summary>
    private CarriedEntries? _carried;

    /// <summary>Read when the first seal is made.</summary>
    private string? _ledger;

    private LedgerSession(SqliteConnection connection, string folder, LedgerGuard? guard)
    {
        (_connection, _folder, _guard) = (connection, folder, guard);
        _json = new(_buffer, new JsonWriterOptions { SkipValidation = true });
        (_insert, _requests) = (new(connection), new(connection, folder, Find));
    }

    /// <summary>The last entry written, committed or not.</summary>
    public Head Head { get; private set; }

    /// <summary>The situation after that entry.</summary>
    public Situation Situation { get; set; } = Situation.Empty;

    /// <summary>The newest seal, committed or not.</summary>
    public NewestSeal NewestSeal { get; private set; }

    /// <summary>How many entries came after the newest seal.</summary>
    public long Unsealed => Head.Serial - Math.Max(NewestSeal.Serial, Situation.Begins - 1);

    /// <summary>The kind of the last entry, other than seals and snapshots, that was found at opening; null in a new ledger.</summary>
    public string? LastKind { get; private set; }

    /// <summary>The instant of the last entry that was found at opening; null in a new ledger.</summary>
    public DateTimeOffset? LastAt { get; private set; }

    /// <summary>Opens the ledger in a folder, and reads its last entry. <see cref="ReadWhatHolds"/> has to follow before anything is written.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="afterFailure">Whether a write or a sync failed before.</param>
    /// <param name="alone">The lock of the folder; null: the lock is not held.</param>
    /// <exception cref="InvalidDataException">The last entry does not follow from the one before it.</exception>
    public static LedgerSession Open(string folder, bool afterFailure, FolderLock? alone)
    {
        var connection = LedgerFile.OpenWriter(folder, afterFailure);
        LedgerSession? session = null;
        try
        {
            session = new(connection, folder, new(connection, alone));
            session.ReadHead();
            return session;
        }
        catch
        {
            (session as IDisposable ?? connection).Dispose();
            throw;
        }
    }

    /// <summary>Reads the situation after the last entry.</summary>
    /// <param name="snapshots">Whether snapshots are written.</param>
    public void ReadWhatHolds(bool snapshots)
    {
        var carried = SituationReader.Carried(_connection, Head.Serial);
        (Situation, NewestSeal) = (carried.Situation(SituationReader.Begins(_connection, Head.Serial)), NewestSeal.Read(_connection));
        _carried = snapshots ? carried : null;
    }

    /// <summary>Makes the file of a ledger that continues another one.</summary>
    /// <param name="path">The file.</param>
    /// <param name="last">The last serial of that other ledger.</param>
    public static LedgerSession Found(string path, long last) =>
        new(LedgerFile.Make(path), Path.GetDirectoryName(path)!, null) { Head = new(last, ChainHash.Start) };

    /// <summary>The size of the ledger's file in bytes, without the part that is still in its log.</summary>
    public long Size => new FileInfo(_connection.DataSource).Length;

    /// <summary>Whether its last entry says that it has ended.</summary>
    public bool HasEnded { get; private set; }

    /// <summary>Which file it is; null: not known.</summary>
    public FileFacts? File => _guard?.Ledger;

    /// <summary>Begins a batch.</summary>
    /// <exception cref="LedgerDisturbedException">The files are not the ones that are open, or another program wrote in them.</exception>
    public void Begin()
    {
        _guard?.Look();
        LedgerFile.Execute(_connection, "BEGIN IMMEDIATE");
        _guard?.LookInside(Head);
    }

    /// <summary>Commits: when it returns, the entries are on the disk, in files that still have their names.</summary>
    public void Commit()
    {
        LedgerFile.Execute(_connection, "COMMIT");
        _guard?.LookAgain();
    }

    /// <summary>Checks the files while no asks come.</summary>
    /// <exception cref="LedgerDisturbedException">As for <see cref="Begin"/>.</exception>
    public void Look() => _guard?.Look();

    /// <summary>Copies a long log into the database; between two batches, so that no answer waits for it.</summary>
    public void CopyLog() => _guard?.CopyLog();

    /// <summary>Copies the whole log into the database; false when a reader prevents that.</summary>
    /// <exception cref="LedgerDisturbedException">As for <see cref="Begin"/>.</exception>
    public bool CopyWholeLog() => _guard?.CopyAll() ?? true;

    /// <summary>Applies the rules of request ids to a decided ask: a retry gets the first outcome, and an id that belongs to another ask is refused.</summary>
    public EntryBody Decide(Ask ask, DateTimeOffset at)
    {
        var now = Decision.Decide(ask, Situation, at, FindAnswer);
        var first = _requests.Of(ask.Caller, Head.Serial, Situation.Begins);
        return first is null ? now : Retry.Outcome(ask, first, now, Situation, body => HeldSince((ReleasedBody)body));
    }

    /// <summary>Whether what the next ledger would carry is too long for one body. Then this ledger continues, since nobody could read the next one.</summary>
    public bool CarriesTooMuch => _carriesTooMuch |= CarriedSize.Of(_connection) > MostCarried;

    /// <summary>
    /// An answer, or a trial, by its serial; null when it is neither, or is a forged one that can't be read, which must not stop the writer.
    /// </summary>
    private ServedBody? FindAnswer(long serial) => Find(serial)?.TryReadBody() as ServedBody;

    /// <summary>Whether, after a release, the same name held the fixture again; also looked up in ledgers that were closed since.</summary>
    private bool HeldSince(ReleasedBody released)
    {
        bool Held(SqliteConnection connection) => LedgerQueries.IsHeldSince(connection, released.Fixture!, released.Of, released.Serial);
        return Held(_connection) || (released.Serial < Situation.Begins && ClosedLedgers.Above<bool>(_folder, released.Serial, c => [Held(c)]).Contains(true));
    }

    /// <summary>The ledger's id, from its first entry.</summary>
    /// <exception cref="InvalidDataException">The first entry has none.</exception>
    public string LedgerId() => _ledger ??= LedgerQueries.LedgerId(_connection) ?? throw new InvalidDataException(
        "the first entry has no ledger id, so a seal could belong to any ledger; run stockseat ledger verify --data FOLDER, and move the damaged ledger away");

    /// <summary>A seal over the last entry; null when nothing is unsealed.</summary>
    /// <exception cref="IOException">The seal can't be signed.</exception>
    public SealBody? MakeSeal(SealKey key, DateTimeOffset at)
    {
        try
        {
            return Unsealed == 0 ? null : key.Seal(LedgerId(), Head.Serial, Head.Hash, at, NewestSeal.Key);
        }
        catch (Exception e) when (e is CryptographicException or ObjectDisposedException)
        {
            throw new IOException($"the ledger can't be sealed: {e.Message}", e);
        }
    }

    /// <summary>An entry that could not be read again is not written.</summary>
    private void ThrowIfTooLong(EntryBody body, int bytes)
    {
        if (BodyJson.TooLong(body.Kind, bytes) is { } tooLong)
        {
            throw new InvalidDataException($"entry {body.Serial} is not written: {tooLong}");
        }

        if (body is RolledOverBody { IsEnd: true } && CarriesTooMuch)
        {
            throw new InvalidDataException(
                $"the ledger does not roll over: the next one would carry more than {MostCarried} bytes of revisions; this one continues, whatever its size");
        }
    }

    /// <summary>The hash stored with an entry; null when there is no such entry.</summary>
    public byte[]? HashOf(long serial) => Find(serial)?.Hash;

    /// <summary>Sets the serial and instant of a body, and writes it.</summary>
    public void Append(EntryBody body, DateTimeOffset at)
    {
        body.Serial = Head.Serial + 1;
        body.At = EntryTime.Text(at);
        _buffer.ResetWrittenCount();
        ChainHash.WritePrefix(_buffer.GetSpan(ChainHash.PrefixSize), Head.Hash);
        _buffer.Advance(ChainHash.PrefixSize);
        _json.Reset(_buffer);
        BodyJson.Write(_json, body);
        _json.Flush();
        ThrowIfTooLong(body, _buffer.WrittenCount - ChainHash.PrefixSize);
        var hash = SHA256.HashData(_buffer.WrittenSpan);
        var next = Situation.Apply(body); // Applied before it is written: an entry that can't be applied must not be in the ledger at the next start.
        _insert.Run(body, _buffer.WrittenSpan[ChainHash.PrefixSize..], hash);
        Head = new(body.Serial, hash);
        (Situation, HasEnded) = (next, body is RolledOverBody { IsEnd: true });
        if (body is SealBody seal)
        {
            NewestSeal = new(seal.Serial, seal.Key, seal.At);
        }

        Tell(body, _buffer.WrittenSpan[ChainHash.PrefixSize..]);
    }

    private void Tell(EntryBody body, ReadOnlySpan<byte> text)
    {
        _requests.Add(body);
        if (body is SnapshotBody)
        {
            _carried?.Written(text.Length);
            _requests.Trim(body.Serial); // The entry has an instant of its own.
        }
        else
        {
            _carried?.Add(body.Serial, body.Kind, body.Fixture, text);
        }
    }

    /// <summary>Whether a snapshot is due: enough entries came since the one before, and at least as many bytes as that one carries.</summary>
    public bool IsSnapshotDue(long every) => !HasEnded && _carried is { } c && c.Since >= every && c.BytesSince >= c.BytesBefore;

    /// <summary>Whether anything came since the newest snapshot.</summary>
    public bool LacksSnapshot => !HasEnded && _carried is { Since: > 0 };

    /// <summary>The snapshot after the last entry; null when it is too long for one body, and then readers use the one before.</summary>
    public SnapshotBody? MakeSnapshot()
    {
        var bytes = _carried!.Choose(Situation);
        if (bytes <= MostCarried)
        {
            return new() { Carried = _carried.Chosen() };
        }

        _carried.Written(bytes);
        return null;
    }

    /// <summary>Writes that the clock was set; not in a new ledger, whose first entry has to be the start.</summary>
    public void AppendStep(ClockStepBody step, DateTimeOffset at)
    {
        if (Head.Serial > 0)
        {
            Append(step.Seconds < 0 ? step : step with { LastBack = Situation.StepBack?.Serial }, at);
        }
    }

    /// <summary>Throws the session away after a failure.</summary>
    public void Discard(Exception cause)
    {
        try
        {
            _guard?.Leave(cause);
            Dispose();
        }
        catch (SqliteException)
        {
            // What was in memory is not trusted any more.
        }
    }

    public void Dispose()
    {
        _guard?.Dispose();
        _insert.Dispose();
        _requests.Dispose();
        _json.Dispose();
        _connection.Dispose();
    }

    /// <summary>An entry of this ledger, or of an earlier one that is still there.</summary>
    private EntryRow? Find(long serial) => LedgerQueries.Find(_connection, serial) ?? (serial < Situation.Begins ? ClosedLedgers.Find(_folder, serial) : null);

    private void ReadHead() => (Head, LastKind, HasEnded, LastAt) = FoundHead.Read(_connection);
}
