using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The load program's ledgers are as good as the service's own.</summary>
public class BigLedgerTests
{
    /// <summary>More than fit in the writer's queue: asks arrive while others are decided.</summary>
    private const int Entries = 12_000;

    [Fact]
    public async Task Generate_SmallLedger_IsIntactAndCanBeServedFrom()
    {
        using var cell = new Cell();
        (await Tool.Run(Repository.LoadProgram, ["generate", "--data", cell.Data, "--entries", $"{Entries}", "--fixtures", cell.Fixtures])).Exits(0);

        var kinds = LedgerRows.Read(cell.Data).CountBy(r => r.Kind).ToDictionary();
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
        await using var service = await Built.Ordinary.Serve(cell);
        using var line = await service.Connect();
        var reply = await line.Ask("locate fixture=pinbed-1 diameter=81mm");

        Assert.Equal(Entries, kinds.Values.Sum());
        Assert.True(kinds["answer"] > Entries * 8 / 10);
        Assert.Equal(3, kinds["revision-adopted"]);
        Assert.DoesNotContain("clock-step", kinds.Keys);
        Assert.All(["measurement", "confirmation", "emptied", "refusal"], kind => Assert.InRange(kinds[kind], 5, Entries / 10));
        Assert.Equal("ok", reply.Verdict);
        Assert.InRange(long.Parse(reply["serial"]), Entries + 1, Entries + 5);
    }
}
