using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class LedgerCopyTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : LedgerCopyTests(Build.Ordinary);

    public sealed class Native() : LedgerCopyTests(Build.Native);

    [Fact]
    public async Task Copy_OfARunningService_ReadsLikeTheOriginal()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.4mm")).Exits(0);
        var to = Path.Combine(cell.Folder, "copy");

        Assert.Matches(
            @"^5 entries of ledger \S+ in .*copy, intact, head 5 [0-9a-f]{64}\s*$",
            (await Program.Run("ledger", "copy", "--data", cell.Data, "--output", to)).Exits(0).Out);

        (await Program.Run("ledger", "verify", "--data", to)).Exits(0);
        Assert.Equal((await service.Ask("ledger", "list", "--json")).Exits(0).Out, (await Program.Run("ledger", "list", "--json", "--data", to)).Exits(0).Out);
        Assert.Equal(LedgerRows.Read(cell.Data).Count, LedgerRows.Read(to).Count);
        (await Program.Run("ledger", "copy", "--data", cell.Data, "--output", to)).Fails(2, "exists already and is never overwritten");
        (await Program.Run("ledger", "copy", "--data", cell.Fixtures, "--output", to)).Fails(2, "there is no ledger.db");
        (await Program.Run("ledger", "copy", "--data", cell.Data)).Fails(64, "--output");
    }
}
