using Microsoft.Data.Sqlite;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

/// <summary>
/// A power cut: the disk's image is copied while the service is stopped in its tracks, without the data that the system had not written yet. A
/// killed process would prove nothing, since the system's cache survives it.
/// </summary>
public class PowerCutTests
{
    private const int Clients = 6;

    [Fact]
    public async Task PowerCut_AtAnyMoment_LosesNothingThatAClientReceived()
    {
        using var cell = new Cell();
        await using var disk = await LoopDisk.Make(Path.Combine(cell.Folder, "disk.img"), cell.Data);
        await using var service = await Launched.Start(cell);
        var stops = Extent.Times(10, 100);

        var acknowledged = 0;
        var (load, history) = await CutAgainAndAgain(cell, disk, service, stops, async (asked, copy) =>
        {
            var rows = LedgerRows.Read(copy);
            History.Agrees(asked, rows);
            acknowledged = asked.Count(a => a.IsOk);
            (await Built.Ordinary.Run("ledger", "verify", "--data", copy)).Exits(0);
            await GoOn(cell, copy, rows.Count);
            return true;
        });

        Extent.Say($"{stops} stops, {acknowledged} answers acknowledged, image opened directly: {disk.IsDirect}");
        Assert.Equal(0, await service.Terminate());
        await load.End();
        History.Agrees(history.Snapshot(), LedgerRows.Read(cell.Data));
    }

    /// <summary>
    /// The test of the test: when a sync is reported as done and was not, the check finds what is missing, even if only the syncs of
    /// the log were skipped, as with a weaker setting of SQLite.
    /// </summary>
    [Theory]
    [InlineData(null)]
    [InlineData("ledger.db-wal")]
    public async Task PowerCut_WhenSyncsDoNothing_IsSeenToLoseAnswers(string? of)
    {
        await Needs.Strace();
        using var cell = new Cell();
        var log = Path.Combine(cell.Folder, "strace.log");
        await using var disk = await LoopDisk.Make(Path.Combine(cell.Folder, "disk.img"), cell.Data);
        await using (var before = await Launched.Start(cell))
        {
            Assert.Equal(0, await before.Terminate());
        }

        await using var service = await Launched.Start(cell,
            under: Strace.Inject(log, "fsync,fdatasync", "retval=0", of is null ? null : Path.Combine(cell.Data, of)));
        var lost = 0;
        var (load, _) = await CutAgainAndAgain(cell, disk, service, 5, (asked, copy) =>
        {
            try
            {
                lost = History.Missing(asked, LedgerRows.Read(copy)).Count;
            }
            catch (Exception e) when (e is SqliteException or Xunit.Sdk.XunitException)
            {
                lost = asked.Count(a => a.IsOk); // Unsynced data need not be a ledger.
            }

            return Task.FromResult(lost == 0);
        });

        await service.Kill();
        await load.End();
        Assert.NotEqual(0, Strace.Injected(await Strace.Read(log, service.Id)));
        Assert.True(lost > 0, "nothing was synced, but nothing was lost either: these tests can't detect the effect of a power cut");
        Extent.Say($"{lost} acknowledged answers were lost");
    }

    /// <summary>Stops the service under load, copies the image, and passes the copy to the check; repeats while the check says so.</summary>
    private static async Task<(Load, History)> CutAgainAndAgain(Cell cell, LoopDisk disk, Launched service, int stops, Func<IReadOnlyList<Asked>, string,
        Task<bool>> check)
    {
        var random = Extent.Random();
        var history = new History();
        var load = Load.Start(service.Line, Clients, history, "cut", random.Next());
        var copied = Path.Combine(cell.Folder, "copy.img");
        var goOn = true;
        for (var stop = 0; stop < stops && goOn; stop++)
        {
            await load.More(history, random.Next(1, 120));
            Thread.SpinWait(random.Next(100_000)); // Not always right after a reply.
            await service.Freeze();
            await disk.Copy(copied);
            var asked = history.Snapshot();
            Assert.True(await LoopDisk.WasCut(copied), "the copy looks like a file system that was unmounted cleanly");
            await using (await LoopDisk.Mount(copied, Path.Combine(cell.Folder, "copy")))
            {
                goOn = await check(asked, Path.Combine(cell.Folder, "copy"));
            }

            service.Thaw();
        }

        return (load, history);
    }

    /// <summary>The service starts on the copy and answers with the next serials.</summary>
    private static async Task GoOn(Cell cell, string data, int entries)
    {
        await using var service = await Launched.Start(cell, data);
        using (var socket = await service.Connect())
        {
            var reply = await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=after");
            Assert.Equal("ok", reply.Verdict);
            Assert.True(reply.Serial > entries, $"serial {reply.Serial} was given a second time: the ledger had {entries} entries");
        }

        Assert.Equal(0, await service.Terminate());
    }
}
