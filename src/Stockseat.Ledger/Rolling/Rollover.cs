using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Rolling;

/// <summary>
/// Puts a new ledger in the place of one that ended. Each step can be the last before a crash; a start goes on from there:
/// 1. the old ledger's last entry says that it ends and names the new one (written by whoever calls this);
/// 2. its log is copied whole into it, and the new ledger is made beside, from nothing but the old one, so made again it is the same;
/// 3. the old one is moved to <c>closed/….db.ending</c>; 4. its log is removed, which holds nothing more; 5. the new one is moved to its place;
/// 6. the mark <c>.ending</c> is taken off.
/// </summary>
internal static class Rollover
{
    /// <summary>For readers that are in the way of the log; they read in short pieces.</summary>
    private const int BusyMilliseconds = 2000;

    /// <summary>The log beside a database, and its index.</summary>
    private static readonly string[] Beside = ["-wal", "-shm"];

    /// <summary>Goes on with a roll that was cut off after the old ledger had left its place; else does nothing.</summary>
    /// <param name="data">The data folder.</param>
    public static void Resume(string data)
    {
        if (ClosedLedgers.Ending(data) is not { } ending)
        {
            return;
        }

        if (!File.Exists(Current(data)))
        {
            using (var old = LedgerFile.OpenClosed(ending))
            {
                Make(old, New(data));
            }

            Replace(data);
        }

        Finish(data, ending);
    }

    /// <summary>Moves a ledger that has ended away, and the new one to its place. Nothing of this process has it open for writing.</summary>
    /// <param name="data">The data folder.</param>
    /// <exception cref="IOException">A reader is in the way; it can be tried again.</exception>
    public static void Run(string data)
    {
        string ending;
        Directory.CreateDirectory(Path.Combine(data, ClosedLedgers.Folder));
        using (var old = LedgerFile.OpenEnded(Current(data), BusyMilliseconds))
        {
            var first = LedgerQueries.First(old)!;
            ending = ClosedLedgers.Ending(data, first.Serial, LedgerQueries.IdIn(first));
            RollSteps.Tell(data, "make");
            Make(old, New(data));
        }

        RollSteps.Tell(data, "move");
        File.Move(Current(data), ending, overwrite: false);
        Replace(data);
        Finish(data, ending);
    }

    private static void Replace(string data)
    {
        RollSteps.Tell(data, "remove");
        DirectorySync.Sync(Path.Combine(data, ClosedLedgers.Folder));
        foreach (var beside in Beside)
        {
            File.Delete(Current(data) + beside);
        }

        DirectorySync.Sync(data); // Before the new one comes: an old log beside it would be taken for its own.
        RollSteps.Tell(data, "replace");
        File.Move(New(data), Current(data), overwrite: false);
        DirectorySync.Sync(data);
    }

    private static void Finish(string data, string ending)
    {
        RollSteps.Tell(data, "finish");
        File.Move(ending, ClosedLedgers.Free(ClosedLedgers.Ended(ending)), overwrite: false);
        DirectorySync.Sync(Path.Combine(data, ClosedLedgers.Folder));
    }

    /// <summary>Makes the ledger that goes on, from the old one alone.</summary>
    private static void Make(SqliteConnection old, string path)
    {
        File.Delete(path);
        File.Delete($"{path}-journal");
        var last = LedgerQueries.Before(old, long.MaxValue, 1)[0];
        var end = (RolledOverBody)last.ReadBody()!;
        using var session = LedgerSession.Found(path, last.Serial);
        session.Begin();
        session.Append(
            new RolledOverBody
            {
                Ledger = end.Next,
                Follows = new() { Ledger = LedgerQueries.LedgerId(old), Last = last.Serial, Hash = Convert.ToHexStringLower(last.Hash) },
                Carried = [.. Carrying.Of(SituationReader.Entries(old), SituationReader.Read(old)).Select(Element)],
            },
            EntryTime.Parse(end.At));
        session.Commit();
    }

    private static JsonElement Element(EntryBody body)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            BodyJson.Write(writer, body);
        }

        using var json = JsonDocument.Parse(stream.GetBuffer().AsMemory(0, (int)stream.Length));
        return json.RootElement.Clone();
    }

    private static string Current(string data) => Path.Combine(data, LedgerFile.Name);

    /// <summary>In the subfolder: the data folder's root has one database.</summary>
    private static string New(string data) => Path.Combine(data, ClosedLedgers.Folder, "next.part");
}
