using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class LedgerRollTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : LedgerRollTests(Build.Ordinary);

    public sealed class Native() : LedgerRollTests(Build.Native);

    [Fact]
    public async Task Roll_ContinuesInANewLedger_AndBothAreRead()
    {
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            var answer = (await service.Ask("locate", "pinbed-1", "--diameter", "92.4mm", "--tag", "a", "--json")).Exits(0).Object.GetProperty("serial")
                .GetRawText();
            Assert.Matches(
                @"^entry 6: this ledger is closed, and ledger \S+ goes on",
                (await service.Ask("ledger", "roll", "--by", "setter", "--why", "spring")).Exits(0).Out);
            (await service.Ask("confirm", answer)).Exits(0);
            Assert.True(
                (await service.Ask("locate", "pinbed-1", "--diameter", "92.4mm", "--tag", "b", "--json")).Exits(0).Object.GetProperty("first").GetBoolean());

            Assert.Equal(Enumerable.Range(1, 9), Serials(await service.Ask("ledger", "list", "--json")));
            (await service.Ask("ledger", "roll", "--by", "setter")).Fails(64, "--why");
            Assert.Equal(0, (await service.Terminate()).ExitCode);
        }

        var closed = Directory.GetFiles(Path.Combine(cell.Data, "closed"));
        Assert.Matches(@"[/\\]1-[0-9a-f-]{36}\.db$", Assert.Single(closed));
        Assert.Equal(["ledger.db", "service.lock"], Directory.GetFiles(cell.Data).Select(Path.GetFileName).Order());
        Assert.Equal(Enumerable.Range(1, 11), Serials(await Program.Run("ledger", "list", "--json", "--data", cell.Data)));
        Assert.StartsWith("intact: 5 entries", (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(0).Out, StringComparison.Ordinal);
        await using (var again = await Program.Serve(cell))
        {
            (await again.Ask("confirm", "5")).Exits(0);
            File.Delete(closed[0]);
            (await again.Ask("confirm", "5")).Fails(1, "refused: serial-unknown: entry 5 can't be found: it is in an older ledger");
        }

        Assert.Contains(
            "is not in closed, so that can't be checked here",
            (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(0).Out, StringComparison.Ordinal);
    }

    private static IEnumerable<int> Serials(Run run) => run.Exits(0).Lines.Select(l => l.GetProperty("serial").GetInt32());
}
