using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>SIGKILL at any moment, even while the service recovers from one: it comes back, and every client's history agrees with the ledger.</summary>
public class KilledTests
{
    private const int Clients = 6;

    [Fact]
    public async Task Kill_AtAnyMoment_EvenDuringRecovery_LosesNothingAcknowledged()
    {
        Needs.Linux();
        using var cell = new Cell();
        var random = Extent.Random();
        var history = new History();
        var kills = Extent.Times(20, 200);
        var readByAStart = await BytesReadByAStart(cell);
        var (loaded, starting, recovering) = (0, 0, 0);
        var ready = 1; // The start just above.
        while (loaded + starting + recovering < kills)
        {
            await using var service = Launched.Begin(cell);
            var far = random.NextInt64(readByAStart);
            switch (random.Next(4))
            {
                case 0 when await CameSoFar(service, () => Read(service) >= far):
                    await service.Kill();
                    starting++;
                    continue;
                case 1 when !IsEmpty(Log(cell)) && await CameSoFar(service, () => IsEmpty(Log(cell))):
                    // The content of the log has just been copied into the database.
                    await service.Kill();
                    recovering++;
                    continue;
            }

            Assert.True(await service.Ready(), $"the service did not come back: {(service.HasEnded ? await service.Log() : "")}");
            ready++;
            await KillUnderLoad(service, history, string.Create(CultureInfo.InvariantCulture, $"kill{loaded++}"), random);
        }

        await using var last = await Launched.Start(cell);
        var rows = LedgerRows.Read(cell.Data);
        var asked = history.Snapshot();
        Extent.Say(
            $"killed {loaded} times under load, {starting} at a start, {recovering} during recovery; {history.Ok} of {asked.Count} asks acknowledged, "
            + $"{asked.Count(a => a.Reply is null)} unknown");
        History.Agrees(asked, rows);
        Assert.InRange(asked.Count(a => a.Reply is null), loaded, loaded * Clients);
        Assert.True(loaded > 0 && starting + recovering > 0, "not every kind of moment occurred; try another seed");
        Assert.InRange(rows.Count(r => r.Kind == "service-started"), ready + 1, kills + 2);
        Assert.All(rows.Where(r => r.Kind == "unclean-stop"), u => Assert.Equal(u.Serial - 1, u.Body.GetProperty("last").GetInt64()));
        (await last.Ask("ledger", "verify")).Exits(0);
        Assert.Equal(0, await last.Terminate());
    }

    private static async Task KillUnderLoad(Launched service, History history, string name, Random random)
    {
        var load = Load.Start(service.Line, Clients, history, name, random.Next());
        await load.More(history, random.Next(1, 200));
        Thread.SpinWait(random.Next(100_000)); // Not always right after a reply.
        await service.Kill();
        await load.End();
    }

    /// <summary>Waits for a moment of a start; false when the service was ready before that.</summary>
    private static async Task<bool> CameSoFar(Launched service, Func<bool> there)
    {
        var came = false;
        await Deadline.Until(() => (came = there()) || service.SaidReady || service.HasEnded, "a moment of a start");
        Assert.False(service.HasEnded, "the service ended by itself");
        return came && !service.SaidReady;
    }

    /// <summary>How far a start has come, judged by how much it has read so far, program files included; the more, the later.</summary>
    private static long Read(Launched service)
    {
        try
        {
            return long.Parse(File.ReadLines($"/proc/{service.Id}/io").First().Split(' ')[1], CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            return 0;
        }
    }

    private static async Task<long> BytesReadByAStart(Cell cell)
    {
        await using var service = await Launched.Start(cell);
        var read = Read(service);
        await service.Kill();
        return read;
    }

    private static FileInfo Log(Cell cell) => new(Path.Combine(cell.Data, "ledger.db-wal"));

    private static bool IsEmpty(FileInfo file)
    {
        file.Refresh();
        return !file.Exists || file.Length == 0;
    }
}
