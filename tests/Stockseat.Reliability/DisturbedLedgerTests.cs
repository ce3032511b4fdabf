using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>
/// Somebody removes the ledger's file, or puts an old copy in its place, while the service answers. Every acknowledged answer is in the file for which it
/// was acknowledged, and the service ends. What a supervisor then starts neither begins at serial 1 nor continues in the copy.
/// </summary>
public class DisturbedLedgerTests
{
    private const int Clients = 6;

    [Theory]
    [InlineData("removed", "was removed or renamed while the service wrote it")]
    [InlineData("moved", "was replaced by another file while the service wrote it")]
    [InlineData("copied", "was overwritten while the service had it open")]
    public async Task Disturbed_UnderLoad_EndsTheService_AndNoStartContinues(string how, string words)
    {
        Needs.Programs("ln");
        using var cell = new Cell();
        await using (var before = await Launched.Start(cell))
        {
            Assert.Equal(0, await before.Terminate());
        }

        var (ledger, kept) = (Path.Combine(cell.Data, "ledger.db"), Directory.CreateDirectory(Path.Combine(cell.Data, "kept")).FullName);
        var old = await File.ReadAllBytesAsync(ledger, TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(ledger + ".old", old, TestContext.Current.CancellationToken);
        await using var service = await Launched.Start(cell);
        foreach (var beside in (string[])["", "-wal"])
        {
            await Needs.Run("ln", ledger + beside, Path.Combine(kept, "ledger.db" + beside)); // a second name for the file, to see what was acknowledged
        }

        var history = new History();
        var load = Load.Start(service.Line, Clients, history, how, Extent.Random().Next());
        await load.More(history, 2000);
        switch (how)
        {
            case "removed": File.Delete(ledger); break;
            case "moved": File.Move(ledger + ".old", ledger, overwrite: true); break;
            default:
                // Again, in case the change happened during the service's own copying of the log.
                await Deadline.Until(() => CopyOver(old, ledger, service), "the end of the service");
                break;
        }

        Assert.Equal(2, await service.ExitCode());
        await load.End();
        Assert.Contains(words, await service.Log(), StringComparison.Ordinal);
        await using var again = Launched.Begin(cell);
        Assert.Equal(2, await again.ExitCode());
        Assert.Contains("then remove ledger.lost", await again.Log(), StringComparison.Ordinal);
        Assert.Equal(how == "removed" ? null : old, File.Exists(ledger) ? await File.ReadAllBytesAsync(ledger, TestContext.Current.CancellationToken) : null);
        if (how != "copied")
        {
            History.Agrees(history.Snapshot(), LedgerRows.Read(kept));
        }
    }

    /// <summary>Overwrites a file in place, as cp does; returns whether the service ended before.</summary>
    private static bool CopyOver(byte[] bytes, string path, Launched service)
    {
        if (service.HasEnded)
        {
            return true;
        }

        using var place = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
        place.SetLength(0);
        place.Write(bytes);
        return false;
    }
}
