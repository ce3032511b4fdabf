using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class LedgerListTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : LedgerListTests(Build.Ordinary);

    public sealed class Native() : LedgerListTests(Build.Native);

    [Fact]
    public async Task List_Filters_GiveTheSameFromServiceAndFolder()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.4mm", "--lot", "A1077")).Exits(0);
        (await service.Ask("locate", "pinbed-1", "--lot", "A1077", "--tag", "a")).Exits(0);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.4mm", "--tag", "b")).Exits(0);
        var all = (await service.Ask("ledger", "list", "--json")).Exits(0).Lines;
        var last = all.Count;
        var at = all[^1].GetProperty("body").GetProperty("at").GetString()!;

        await Lists([last - 2, last - 1], "--lot", "A1077");
        await Lists([last - 2, last - 1, last], "--cell", "demo");
        await Lists([last - 1], "--cell", "demo", "--lot", "A1077", "--kind", "answer");
        await Lists([last], "--from", at);
        await Lists([.. Enumerable.Range(1, last - 1)], "--to", at);
        await Lists([], "--to", "2020-01-01");
        await Lists([2, 3], "--after", "1", "--until", "3");
        await Lists([.. Enumerable.Range(1, last)], "--until", "999999");
        await Lists([], "--after", "999999");

        async Task Lists(int[] serials, params string[] options)
        {
            var run = await service.Ask(["ledger", "list", "--json", .. options]);
            Assert.Equal(serials, run.Exits(0).Lines.Select(l => l.GetProperty("serial").GetInt32()));
            Assert.Equal(run.Out, (await Program.Run(["ledger", "list", "--json", "--data", cell.Data, .. options])).Exits(0).Out);
        }
    }

    [Theory]
    [InlineData("--from", "yesterday", "--from 'yesterday' is not an instant")]
    [InlineData("--to", "25.11.2026", "--to '25.11.2026' is not an instant")]
    [InlineData("--until", "0", "--until: '0' is not a serial; a whole number, 1 or above, was expected")]
    [InlineData("--after", "-1", "--after: '-1' is not a serial; a whole number, 0 or above, was expected")]
    public async Task List_WithABadRange_Exits64(string option, string value, string said) =>
        (await Program.Run("ledger", "list", "--data", "anywhere", option, value)).Fails(64, said);
}
