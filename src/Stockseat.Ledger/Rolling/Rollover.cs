using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Rolling;

/// <summary>
/// Puts a new ledger in the place of one that ended. A crash can come after each step; the next start continues from there:
/// 1. the last entry of the old ledger says that it ends, and names the new one (written by the caller);
/// 2. the log is copied into the old ledger, and the new ledger is made beside it, from nothing but the old one, so making it again gives the same;
/// 3. the old one is moved to <c>closed/….db.ending</c>; 4. its log is removed, which has nothing more in it; 5. the new one is moved to its place;
/// 6. the mark <c>.ending</c> is removed from the name.
/// A reader that began before the last entry of the ledger keeps the end of the log from being copied. Then the mark is <c>.held</c>, step 4 moves the log
/// along with the ledger, to which it still belongs, and step 6 waits until the reader has ended. Nothing else waits for that reader.
/// </summary>
internal static class Rollover
{
    /// <summary>The log beside a database, and its index.</summary>
    private static readonly string[] Beside = ["-wal", "-shm"];

    /// <summary>
    /// Continues rolls that were cut off after the old ledger had left its place, or that a reader held up; if there are none it does nothing.
    /// </summary>
    /// <param name="data">The data folder.</param>
    public static void Resume(string data)
    {
        var leaving = ClosedLedgers.Leaving(data).ToList();
        if (leaving is [.., var last] && !File.Exists(Current(data)))
        {
            MoveLog(data, last);
            using (var old = ClosedLedgers.IsHeld(last) ? LedgerFile.OpenEnded(last, out _) : LedgerFile.OpenClosed(last))
            {
                Make(old, New(data));
            }

            Replace(data, last);
        }

        leaving.ForEach(l => Finish(data, l));
    }

    /// <summary>Removes the marks of rolls that readers held up, as far as those readers have ended.</summary>
    /// <param name="data">The data folder, whose current ledger is in its place.</param>
    public static void Finish(string data)
    {
        foreach (var held in ClosedLedgers.Leaving(data).ToList())
        {
            Finish(data, held);
        }
    }

    /// <summary>Moves a ledger that has ended away, and the new one to its place. Nothing in this process has it open for writing.</summary>
    /// <param name="data">The data folder.</param>
    public static void Run(string data)
    {
        string leaving;
        Directory.CreateDirectory(Path.Combine(data, ClosedLedgers.Folder));
        using (var old = LedgerFile.OpenEnded(Current(data), out var held))
        {
            var first = LedgerQueries.First(old)!;
            leaving = ClosedLedgers.Leaving(data, first.Serial, LedgerQueries.IdIn(first), held);
            RollSteps.Tell(data, "make");
            Make(old, New(data));
        }

        RollSteps.Tell(data, "move");
        File.Move(Current(data), leaving, overwrite: false);
        Replace(data, leaving);
        Finish(data, leaving);
    }

    private static void Replace(string data, string leaving)
    {
        RollSteps.Tell(data, "remove");
        DirectorySync.Sync(Path.Combine(data, ClosedLedgers.Folder));
        MoveLog(data, leaving);
        RollSteps.Tell(data, "replace");
        File.Move(New(data), Current(data), overwrite: false);
        DirectorySync.Sync(data);
    }

    /// <summary>Makes sure that there is no log at the place of the ledger before the new one comes: SQLite would take it for the log of the new one.</summary>
    private static void MoveLog(string data, string leaving)
    {
        foreach (var beside in Beside)
        {
            if (!ClosedLedgers.IsHeld(leaving))
            {
                File.Delete(Current(data) + beside);
            }
            else if (File.Exists(Current(data) + beside))
            {
                File.Move(Current(data) + beside, leaving + beside, overwrite: false); // The locks of the readers go away with the index.
            }
        }

        DirectorySync.Sync(Path.Combine(data, ClosedLedgers.Folder)); // If it is there already, it was moved before the crash.
        DirectorySync.Sync(data);
    }

    private static void Finish(string data, string leaving)
    {
        RollSteps.Tell(data, "finish");
        if (ClosedLedgers.IsHeld(leaving) && !TakeIn(leaving))
        {
            return;
        }

        File.Move(leaving, ClosedLedgers.Free(ClosedLedgers.Ended(leaving)), overwrite: false);
        DirectorySync.Sync(Path.Combine(data, ClosedLedgers.Folder));
    }

    /// <summary>Copies the log beside a ledger into it; false when a reader still prevents that.</summary>
    private static bool TakeIn(string held)
    {
        LedgerFile.OpenEnded(held, out var still).Dispose();
        if (!still)
        {
            foreach (var beside in Beside)
            {
                File.Delete(held + beside);
            }
        }

        return !still;
    }

    /// <summary>Makes the new ledger, from the old one only.</summary>
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
                Carried = [.. Carrying.Of(SituationReader.Carried(old, long.MaxValue).Bodies(), SituationReader.Read(old)).Select(Element)],
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

    /// <summary>In the subfolder, so that the data folder itself has only one database.</summary>
    private static string New(string data) => Path.Combine(data, ClosedLedgers.Folder, "next.part");
}
