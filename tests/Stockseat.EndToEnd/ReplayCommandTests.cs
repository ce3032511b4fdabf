using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class ReplayCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ReplayCommandTests(Build.Ordinary);

    public sealed class Native() : ReplayCommandTests(Build.Native);

    [Fact]
    public async Task Replay_OfAServicesDecisions_ComesOutTheSame_AndAChangedBodyDoesNot()
    {
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            (await service.Ask("measured", "pinbed-1", "92.4mm", "--lot", "A1077")).Exits(0);
            var answer = (await service.Ask("locate", "pinbed-1", "--lot", "A1077", "--json")).Exits(0).Object.GetProperty("serial").GetRawText();
            (await service.Ask("confirm", answer)).Exits(0);
            (await service.Ask("locate", "pinbed-1", "--lot", "A1077")).Exits(0);
            (await service.Ask("locate", "pinbed-1", "--diameter", "5mm")).Exits(1);
            (await service.Ask("locate", "nowhere", "--diameter", "92.4mm")).Exits(1);
            (await service.Ask("fixture", "hold", "pinbed-1", "--by", "setter", "--why", "pins")).Exits(0);
            (await service.Ask("ledger", "roll", "--by", "setter", "--why", "spring")).Exits(0);
            (await service.Ask("fixture", "release", "pinbed-1", "--by", "setter", "--why", "done")).Exits(0);
            (await service.Ask("locate", "pinbed-1")).Exits(0);

            var beside = (await Program.Run("ledger", "replay", "--data", cell.Data, "--progress")).Exits(0);
            Assert.StartsWith("the same: ", beside.Out, StringComparison.Ordinal);
        }

        var json = (await Program.Run("ledger", "replay", "--data", cell.Data, "--json")).Exits(0).Object;
        Assert.True(json.GetProperty("agrees").GetBoolean());
        Assert.Equal((3, 2, 1), (json.GetProperty("answers").GetInt32(), json.GetProperty("refusals").GetInt32(), json.GetProperty("given").GetInt32()));
        Assert.Equal(json.GetProperty("same").GetInt32(), new[] { "answers", "refusals", "others" }.Sum(n => json.GetProperty(n).GetInt32()));
        var last = json.GetProperty("last").GetInt32();
        var part = (await Program.Run("ledger", "replay", "--data", cell.Data, "--from", "3", "--until", "5", "--json")).Exits(0).Object;
        Assert.Equal((3, 5), (part.GetProperty("first").GetInt32(), part.GetProperty("last").GetInt32()));

        (await Program.Run("ledger", "replay", $"{last + 1}", "--data", cell.Data)).Fails(2, $"there is no entry {last + 1}; this ledger has entries 1 to "
            + $"{last}");
        LedgerRows.Change(cell.Data, "UPDATE entry SET body = replace(body, '\"first\":true', '\"first\":false') "
            + "WHERE serial = (SELECT min(serial) FROM entry WHERE kind = 'answer')");
        var changed = (await Program.Run("ledger", "replay", "--data", cell.Data)).Exits(1);
        Assert.Contains("not the same: 1 of ", changed.Out, StringComparison.Ordinal);
        Assert.Contains(
            "1 value does not come out as recorded\n  first: recorded false, recomputed true\n", changed.Out.ReplaceLineEndings("\n"),
            StringComparison.Ordinal);
        LedgerRows.Change(cell.Data, "UPDATE entry SET body = replace(body, '\"v\":2', '\"v\":9') WHERE kind = 'released'");
        Assert.Contains(
            "has version 9; this program knows 1 to 2", (await Program.Run("ledger", "replay", "--data", cell.Data)).Exits(2).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("'0' is not a serial", "0", "--data", "x")]
    [InlineData("'x' is not a serial", "--from", "x", "--data", "x")]
    [InlineData("can't be used with one SERIAL", "5", "--until", "7", "--data", "x")]
    [InlineData("--from is 7 and --until 5", "--from", "7", "--until", "5", "--data", "x")]
    public async Task Replay_WithWrongUsage_Exits64(string said, params string[] arguments) =>
        (await Program.Run(["ledger", "replay", .. arguments])).Fails(64, said);

    [Fact]
    public async Task Replay_OfAFolderWithoutLedger_Exits2() =>
        (await Program.Run("ledger", "replay", "--data", Path.Combine(Path.GetTempPath(), "nothing-here")))
            .Fails(2, "the ledger could not be read: there is no ledger.db");
}
