using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A cell's ledger in the plant store, by the commands that people use.</summary>
public abstract class PlantCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : PlantCommandTests(Build.Ordinary);

    public sealed class Native() : PlantCommandTests(Build.Native);

    [Fact]
    public async Task Ledger_FromTheStore_IsWhatTheFolderHas()
    {
        await using var store = await PlantStore.Start(Program, options: "fsync=off");
        using var cell = new Cell();
        store.Take(cell);
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.4mm", "--lot", "A1077")).Exits(0);
        var answer = (await service.Ask("locate", "pinbed-1", "--json")).Exits(0).Object.GetProperty("serial").GetInt64();
        (await service.Ask("locate", "pinbed-1", "--diameter", "300mm")).Exits(1);
        var last = answer + 1;
        await store.Has(last);

        await Same(0, "ledger", "list", "--json", "--until", $"{last}");
        await Same(0, "ledger", "list", "--kind", "refusal", "--cell", "demo");
        await Same(0, "ledger", "export", "--jsonl", "--until", $"{last}");
        await Same(0, "ledger", "replay", $"{answer}");
        await Same(0, "ledger", "review", "--at", $"{answer}", "--json");
        Assert.StartsWith("intact: ", (await Stored("ledger", "verify")).Exits(0).Out, StringComparison.Ordinal);
        Assert.StartsWith("1 of 1 ledger intact, ", (await Plant("verify")).Exits(0).Out, StringComparison.Ordinal);
        Assert.Equal("demo", (await Plant("status", "--json")).Exits(0).Object.GetProperty("cell").GetString());

        await store.Sql($"UPDATE stockseat.entry SET body = replace(body, 'pick', 'kick') WHERE serial = {answer}");
        Assert.Contains($"fault at entry {answer}: edited", (await Stored("ledger", "verify")).Exits(1).Out, StringComparison.Ordinal);
        Assert.Contains($"at entry {answer}: edited", (await Plant("verify")).Exits(1).Out, StringComparison.Ordinal);

        async Task Same(int code, params string[] command)
        {
            var folder = (await Program.Run([.. command, "--data", cell.Data])).Exits(code);
            Assert.NotEmpty(folder.Out);
            Assert.Equal(folder.Out, (await Stored(command)).Exits(code).Out);
        }

        Task<Run> Stored(params string[] command) => Program.Run([.. command, "--plant", .. store.Options]);
        Task<Run> Plant(params string[] command) => Program.Run(["plant", .. command, .. store.Options]);
    }

    [Fact]
    public async Task Prepare_Twice_SaysWhatItDid_AndStatusOfAnEmptyStoreSaysSo()
    {
        await using var store = await PlantStore.Start(Program, prepared: false, "fsync=off");

        Task<Run> Plant(string command) => Program.Run(["plant", command, .. store.Options]);
        (await Plant("status")).Fails(2, "has tables of version 0; version 2 is needed: run stockseat plant prepare");
        Assert.Contains("has tables of version 2 now", (await Plant("prepare")).Exits(0).Out, StringComparison.Ordinal);
        Assert.Contains("version 2 already; nothing was changed", (await Plant("prepare")).Exits(0).Out, StringComparison.Ordinal);
        Assert.Contains("no service has sent anything yet", (await Plant("status")).Exits(0).Out, StringComparison.Ordinal);
        Assert.Contains("no service has sent anything yet",
            (await Program.RunWith([("STOCKSEAT_PLANT_CONNECTION", store.Connection)], "plant", "status")).Exits(0).Out, StringComparison.Ordinal);
        (await Program.Run(["ledger", "list", "--plant", .. store.Options])).Fails(2, "the store has no ledger yet");
    }

    [Fact]
    public async Task Show_PrintsTheSqlWithoutAStore() =>
        Assert.Contains("CREATE TABLE stockseat.entry (", (await Program.Run("plant", "prepare", "--show")).Exits(0).Out, StringComparison.Ordinal);

    [Theory]
    [InlineData("--connection is missing, and STOCKSEAT_PLANT_CONNECTION is not set", "plant", "status")]
    [InlineData("--connection states a password", "plant", "status", "--connection", "Host=db;Username=u;Password=hush")]
    [InlineData("--data reads a folder and --plant the plant store; name only one of them", "ledger", "verify", "--plant", "--data", "data")]
    [InlineData("--ledger says which ledger of the plant store is meant; add --plant", "ledger", "list", "--ledger", "x")]
    [InlineData("--cell says which ledger of the plant store is meant; add --plant", "ledger", "verify", "--cell", "x")]
    public async Task WrongUse_Exits64(string said, params string[] command) => (await Program.Run(command)).Fails(64, said);

    [Fact]
    public async Task StoreThatIsNotThere_IsNamedWithoutItsPassword()
    {
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, "hush");

        var run = await Program.Run("plant", "status", "--connection", "Host=127.0.0.1;Port=1;Database=plant;Username=cell_4", "--password-file", file);

        run.Fails(2, "the plant store 127.0.0.1/plant: Failed to connect to 127.0.0.1:1");
        Assert.DoesNotContain("hush", run.Err, StringComparison.Ordinal);
        File.Delete(file);
    }
}
