using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class ConfigurationTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ConfigurationTests(Build.Ordinary);

    public sealed class Native() : ConfigurationTests(Build.Native);

    [Fact]
    public async Task Serve_BrokenConfiguration_ReportsAllFaultsAtOnce()
    {
        using var cell = new Cell();
        var config = cell.Write("config/broken.json", """
            { "Listen": { "Grpc": "nowhere", "Line": "127.0.0.1:0" }, "FirstAdoption": "perhaps", "Colour": "red",
              "Clients": [ { "Name": "bench", "From": [ "127.0.0.300" ], "Roles": [] } ] }
            """);

        var run = (await Program.Run("serve", "--config", config, "--data", cell.Data)).Fails(64, "Listen:Grpc");

        Assert.All(["nowhere", "perhaps", "Colour", "127.0.0.300"], said => Assert.Contains(said, run.Err, StringComparison.Ordinal));
        Assert.False(Directory.Exists(cell.Data));
        (await Program.Run("settings", "--config", config)).Fails(64, "Colour");
    }

    [Theory]
    [InlineData("{ \"Data\": ")]
    [InlineData("")]
    [InlineData("[]")]
    public async Task Serve_ConfigurationThatIsNotAnObject_Exits64(string text)
    {
        using var cell = new Cell();
        (await Program.Run("serve", "--config", cell.Write("config/broken.json", text), "--data", cell.Data)).Fails(64, "broken.json");
    }

    [Fact]
    public async Task Serve_ConfigurationMissing_Exits64() =>
        (await Program.Run("serve", "--config", "no-such-file.json")).Fails(64, "no-such-file.json");

    [Fact]
    public async Task Serve_UnknownVariable_Exits64()
    {
        using var cell = new Cell();
        (await Program.RunWith([("STOCKSEAT_DATTA", "elsewhere")], "serve", "--config", cell.Config, "--data", cell.Data)).Fails(64, "STOCKSEAT_DATTA");
    }

    [Fact]
    public async Task Settings_ShowsEachSource()
    {
        using var cell = new Cell();
        var run = await Program.RunWith([("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:1234")], "settings", "--json", "--config", cell.Config, "--data", "here");

        var settings = run.Exits(0).Object;
        Assert.Equal(("127.0.0.1:1234", "environment"), Setting(settings, "Listen:Grpc"));
        Assert.Equal(("127.0.0.1:28611", "file"), Setting(settings, "Listen:Line"));
        Assert.Equal((Path.Combine(Tool.Folder, "here"), "command line"), Setting(settings, "Data"));
        Assert.Equal((Path.Combine(Tool.Folder, "fixtures"), "default"), Setting((await Program.Run("settings", "--json")).Exits(0).Object, "Fixtures"));
        var table = (await Program.Run("settings", "--config", cell.Config)).Exits(0).Out;
        Assert.All(["setting", "source", "Gauges:bench-2", "127.0.0.1:28611"], said => Assert.Contains(said, table, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("short", "ok 17 6 yes " + BedPick.Micrometres + " end", "ok 17 7 end", "refused 17 cell measurement-missing", "80 characters")]
    [InlineData("semicolons", "ok;6;" + BedPick.Bx + ";" + BedPick.By + ";" + BedPick.Bz + ";end", "ok;7;end", "refused;measurement-missing",
        "does not show which answers are marked first")]
    public async Task Settings_Form_ShowsWhatAClientWouldGet(string form, string answer, string done, string refused, string advice)
    {
        using var cell = new Cell();

        var lines = (await Program.Run("settings", "--form", form, "--config", cell.Config)).Exits(0).Out.Split('\n', StringSplitOptions.TrimEntries);
        var json = (await Program.Run("settings", "--form", form, "--json", "--config", cell.Config)).Exits(0).Object;

        Assert.Equal([answer, done, refused], lines[..3]);
        Assert.Contains(lines[3..], l => l.Contains(advice, StringComparison.Ordinal));
        Assert.Contains(lines[3..], l => l.Contains("without a unit", StringComparison.Ordinal));
        Assert.Equal((form, answer, done, refused), (Text(json, "form"), Text(json, "answer"), Text(json, "done"), Text(json, "refused")));
        Assert.Equal(lines[3..].Where(l => l.Length > 0), json.GetProperty("advice").EnumerateArray().Select(a => a.GetString()!));
    }

    [Fact]
    public async Task Settings_UnknownForm_Exits64AndNamesTheKnownOnes()
    {
        using var cell = new Cell();
        (await Program.Run("settings", "--form", "nonsense", "--config", cell.Config)).Fails(64, "named, semicolons, short");
    }

    [Fact]
    public async Task Serve_FormThatCouldMislead_Exits64()
    {
        using var cell = new Cell();
        var config = cell.Write("config/broken.json", """{ "Forms": { "bad": { "Ok": "ok {serial} {bx} {by} {bz}", "Refused": "ok not {reason}" } } }""");

        var run = (await Program.Run("serve", "--config", config, "--data", cell.Data)).Fails(64, "Forms.bad.Ok: has no end mark");

        Assert.Contains("Forms.bad.Refused: begins with 'ok'", run.Err, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("serve", "--nonsense")]
    [InlineData("nonsense")]
    [InlineData("locate")]
    [InlineData("locate", "pinbed-1", "--diameter", "92.4")]
    [InlineData("locate", "pinbed-1", "--diameter", "-1mm")]
    [InlineData("locate", "pinbed-1", "--nest", "2")]
    [InlineData("locate", "pinbed-1", "--purpose", "drop")]
    [InlineData("locate", "pinbed-1", "--server", "nowhere")]
    [InlineData("measured", "pinbed-1")]
    [InlineData("measured", "pinbed-1", "92,4mm")]
    [InlineData("measured", "pinbed-1", "@file")]
    [InlineData("confirm", "seven")]
    [InlineData("confirm", "7", "--read", "by")]
    [InlineData("fixture")]
    [InlineData("fixture", "adopt", "pinbed-1", "4", "--by", "setter")]
    [InlineData("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "x", "--digest", "0123456789a")]
    [InlineData("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "x", "--digest", "0123456789abx")]
    [InlineData("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "x", "--digest", "")]
    [InlineData("ledger", "tail", "--count", "0")]
    public async Task WrongUsage_Exits64(params string[] arguments)
    {
        var run = (await Program.Run(arguments)).Exits(64);
        Assert.Empty(run.Out);
        Assert.NotEmpty(run.Err);
    }

    [Theory]
    [InlineData("--help")]
    [InlineData("--version")]
    [InlineData("ledger", "verify", "--help")]
    public async Task Help_Exits0(params string[] arguments) => Assert.NotEmpty((await Program.Run(arguments)).Exits(0).Out);

    [Fact]
    public async Task Tour_SucceedsInEveryStep()
    {
        using var cell = new Cell();
        var temporary = Directory.CreateDirectory(Path.Combine(cell.Folder, "temporary"));

        var run = (await Program.RunWith([("TMPDIR", temporary.FullName), ("TEMP", temporary.FullName)], "tour")).Exits(0);

        Assert.Contains("Everything went as it should.", run.Out, StringComparison.Ordinal);
        Assert.All(
            [
                "can injure and destroy", "not a safety function", "at reduced speed, with people clear", "Add the shift to the taught origin, never to an "
                    + "origin",
                "stop and call; never reuse the last shift", "approach points, the chuck's grip, payload and tipping", "an enabling device",
                "void after any adoption", "ISO 10218-1 and -2:2025, ANSI/A3 R15.06-2025 and ISO 12100",
            ],
            caution => Assert.Contains(caution, run.Out, StringComparison.Ordinal));
        Assert.EndsWith("Local codes and licensed practice come first.", run.Out.TrimEnd(), StringComparison.Ordinal);
        Assert.Empty(run.Err);
        Assert.Empty(temporary.EnumerateFileSystemInfos("stockseat-*"));
    }

    private static string? Text(JsonElement json, string name) => json.GetProperty(name).GetString();

    private static (string?, string?) Setting(JsonElement settings, string name) =>
        (settings.GetProperty(name).GetProperty("value").GetString(), settings.GetProperty(name).GetProperty("source").GetString());
}
