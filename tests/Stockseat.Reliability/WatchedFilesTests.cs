using Microsoft.Data.Sqlite;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

/// <summary>The program, its clock and its disk as they are: revision files come, break and go while clients ask all the time.</summary>
public class WatchedFilesTests
{
    [Fact]
    public async Task NewRevision_WrittenInPieces_IsAdoptedUnderLoad_AndEachAnswerIsFromOne()
    {
        Needs.Linux();
        using var cell = new Cell();
        await using var service = await Launched.Start(cell);
        var history = new History();
        var load = Load.Start(service.Line, 6, history, "watch", Extent.Random().Next());
        await load.More(history, 100);

        cell.Publish("pinbed-1", 3, 4, ("\"x\": \"412.30 mm\"", "\"x\": \"413.30 mm\""));
        var path = Path.Combine(cell.Fixtures, "pinbed-1", "r0004.json");
        var whole = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        await using (var file = new StreamWriter(path))
        {
            file.AutoFlush = true;
            foreach (var piece in whole.Chunk(100))
            {
                await file.WriteAsync(piece);
                await load.More(history, 1);
            }
        }

        await Until.True(async () => (await Shown(service)).GetProperty("waiting").EnumerateArray().Any(n => n.GetInt32() == 4), "revision 4 waits");
        await load.More(history, 100);
        (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "bed moved")).Exits(0);
        await load.More(history, 100);
        await File.WriteAllTextAsync(path, whole[..1000], TestContext.Current.CancellationToken);
        await Until.True(async () => (await Shown(service)).GetProperty("faults").GetArrayLength() > 0, "the broken file shows");
        await load.More(history, 100);
        Assert.Equal(0, await service.Terminate());
        await load.End();

        var rows = LedgerRows.Read(cell.Data);
        var asked = history.Snapshot();
        History.Agrees(asked, rows);
        var adopted = rows.Single(r => r.Kind == "revision-adopted" && r.Body.GetProperty("revision").GetInt32() == 4).Serial;
        var answers = rows.Where(r => r.Kind == "answer").ToList();
        Assert.All(answers, a => Assert.Equal(a.Serial < adopted ? 3 : 4, a.Body.GetProperty("revision").GetInt32()));
        Assert.All(asked.Where(a => a.IsOk), a => Assert.Equal(a.Reply!.Serial < adopted ? ("3", "0.412300") : ("4", "0.413300"), (a.Reply["revision"], a.Reply["x"])));
        Assert.True(answers.Exists(a => a.Serial < adopted) && answers.Exists(a => a.Serial > adopted), "no answers from both");
        Assert.All(rows.Where(r => r.Kind == "refusal"), r => Assert.Equal("diameter-above-envelope", r.Body.GetProperty("reason").GetString()));
    }

    [Fact]
    public async Task WhatTheLedgerDidNotTake_IsTakenWhenItCanBeWrittenAgain()
    {
        Needs.Linux();
        using var cell = new Cell();
        await using var service = await Launched.Start(cell);
        Sql(cell, "CREATE TRIGGER full BEFORE INSERT ON entry WHEN NEW.kind = 'revision-rejected' BEGIN SELECT RAISE(ABORT, 'no room'); END");
        cell.Write("config/fixtures/pinbed-1/r0004.json", "{");
        // Only that entry fails, so whoever is refused knows that it was tried.
        await Until.True(async () => (await Reply(service)).Text.Contains("reason=ledger-unavailable", StringComparison.Ordinal), "the ledger does not take it");
        await Until.True(async () => (await Reply(service)).Verdict == "ok", "the ledger is back");
        Assert.Equal(0, (await Shown(service)).GetProperty("faults").GetArrayLength());

        Sql(cell, "DROP TRIGGER full");
        await Until.True(async () => (await Shown(service)).GetProperty("faults").GetArrayLength() > 0, "the fault shows");
        await Until.True(async () => (await Reply(service)).Verdict == "ok", "answers beside it");
        Assert.Equal(0, await service.Terminate());
        Assert.Single(LedgerRows.Read(cell.Data), r => r.Kind == "revision-rejected");
        Assert.Contains("can't be taken yet", await service.Log(), StringComparison.Ordinal);
    }

    private static async Task<System.Text.Json.JsonElement> Shown(Launched service) =>
        (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.First(f => f.GetProperty("fixture").GetString() == "pinbed-1");

    private static async Task<LineReply> Reply(Launched service)
    {
        using var socket = await service.Connect();
        return await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm");
    }

    private static void Sql(Cell cell, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(cell.Data, "ledger.db")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
