using System.Xml.Linq;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A master is seated and found again, as a setter does it.</summary>
public abstract class RecheckCommandTests(Build build) : OnBothBuilds(build)
{
    private static readonly string[] Found = ["--master", "80mm", "--by", "setter", "--found"];

    public sealed class Ordinary() : RecheckCommandTests(Build.Ordinary);

    public sealed class Native() : RecheckCommandTests(Build.Native);

    [Fact]
    public async Task A_recheck_says_what_was_predicted_found_and_expected_and_its_verdict()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        // The demo's taught origin, with the master it was taught with.
        var text = (await service.Ask(["fixture", "recheck", "pinbed-1", .. Found, "412.35mm,-205.02mm,118mm", "--note", "after the shift"])).Exits(0).Out;
        Assert.Contains("predicted  412.300  -205.000  118.000", text, StringComparison.Ordinal);
        Assert.Contains("found      412.350  -205.020  118.000", text, StringComparison.Ordinal);
        Assert.Contains("miss: -0.020 mm along the seat axis, +0.050 mm across it, 0.000 mm out of the plan; 0.054 mm long", text, StringComparison.Ordinal);
        Assert.Contains("expected: within U (k = 2) of ", text, StringComparison.Ordinal);
        Assert.Contains("passed: along and across are judged by what is expected", text, StringComparison.Ordinal);

        var missed = (await service.Ask(["fixture", "recheck", "pinbed-1", .. Found, "412.30mm,-203.00mm,118mm", "--within", "2um", "--json"])).Exits(1).Object;
        Assert.Equal(("missed", false), (missed.GetProperty("verdict").GetString(), missed.GetProperty("refusesAsks").GetBoolean()));
        Assert.Equal(0.002, missed.GetProperty("miss").GetProperty("along").GetDouble(), 1e-9);
        var list = (await service.Ask("fixture", "list")).Exits(0).Out;
        Assert.Contains($"pinbed-1: recheck {missed.GetProperty("serial").GetInt64()} missed, by 2.000 mm (+2.000 along", list, StringComparison.Ordinal);
        Assert.Equal("missed", (await service.Ask("fixture", "list", "--json")).Exits(0).Lines[0].GetProperty("missed").GetProperty("verdict").GetString());
        using var socket = await service.Connect();
        Assert.Equal($"{missed.GetProperty("serial").GetInt64()}", (await socket.Ask("status fixture=pinbed-1"))["missed"]);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
        Assert.Contains(
            "found 0.054 mm from where it was predicted: within; after the shift", (await service.Ask("ledger", "list", "--kind", "recheck")).Exits(0).Out,
            StringComparison.Ordinal);
        (await service.Ask("ledger", "verify")).Exits(0);
    }

    [Fact]
    public async Task A_miss_refuses_asks_where_the_configuration_says_so_through_a_kill_until_another_revision_is_adopted()
    {
        using var cell = new Cell();
        cell.Write("config/stockseat.json", (await File.ReadAllTextAsync(cell.Config, TestContext.Current.CancellationToken))
            .Replace("\"FirstAdoption\"", "\"RefuseAfterMiss\": true, \"FirstAdoption\"", StringComparison.Ordinal));
        cell.Publish("pinbed-1", 3, 4, ("\"shift\": \"40 mm\"", "\"shift\": \"40 mm\", \"recheck\": \"0.5 mm\""));
        await using (var first = await Program.Serve(cell))
        {
            var text = (await first.Ask(["fixture", "recheck", "pinbed-1", .. Found, "412.30mm,-205mm,118.51mm"])).Exits(1).Out;
            Assert.Contains("MISSED: limits.recheck is 0.5 mm, for the length of the miss", text, StringComparison.Ordinal);
            Assert.Contains("Asks are refused (recheck-failed) until another revision is adopted", text, StringComparison.Ordinal);
            await first.Kill();
        }

        cell.Publish("pinbed-1", 4, 5);
        await using var second = await Program.Serve(cell);
        (await second.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "refused: recheck-failed: recheck ");
        (await second.Ask(["fixture", "recheck", "pinbed-1", .. Found, "412.30mm,-205mm,118mm"])).Exits(0);
        (await second.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "calibrate the fixture and adopt a new revision");
        (await second.Ask("fixture", "adopt", "pinbed-1", "5", "--by", "setter", "--why", "calibrated")).Exits(0);
        (await second.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
    }

    [Fact]
    public async Task The_trend_is_a_table_with_control_limits_and_a_picture()
    {
        using var cell = new Cell();
        var picture = Path.Combine(cell.Folder, "trend.svg");
        await using var service = await Program.Serve(cell);
        string[] trend = ["fixture", "recheck", "pinbed-1"];
        Assert.Contains("was not rechecked yet", (await service.Ask(trend)).Exits(0).Out, StringComparison.Ordinal);
        (await service.Ask([.. trend, "--picture", picture])).Exits(2);
        for (var i = 0; i < 8; i++)
        {
            (await service.Ask([.. trend, .. Found, $"412.30mm,{(i % 2 == 0 ? "-205.01" : "-204.99")}mm,118mm"])).Exits(0);
        }

        var table = (await service.Ask([.. trend, "--picture", picture])).Exits(0).Out;

        // By hand: eight values ±0.01 mm in turns: mean 0, moving ranges 0.02; 3 · 0.02 / 1.128 = 0.053.
        Assert.Contains(
            "revision 3, 8 rechecks: along mean 0", table.Replace("+0.000", "0", StringComparison.Ordinal).Replace("-0.000", "0", StringComparison.Ordinal),
            StringComparison.Ordinal);
        Assert.Contains("control limits -0.053 to +0.053 mm; across mean", table, StringComparison.Ordinal);
        XNamespace ns = "http://www.w3.org/2000/svg";
        var words = XDocument.Parse(await File.ReadAllTextAsync(picture, TestContext.Current.CancellationToken)).Descendants(ns + "text").Select(t => t.Value)
            .ToList();
        Assert.Contains("pinbed-1: rechecks", words);
        Assert.Contains("along the seat axis, in mm", words);
        Assert.Contains("upper +0.053", words);
        var lines = (await service.Ask([.. trend, "--last", "3", "--json"])).Exits(0).Lines;
        Assert.Equal(3, lines.Count);
        Assert.Equal("passed", lines[0].GetProperty("verdict").GetString());
        Assert.Contains("3 rechecks: no control limits: they need 8", (await service.Ask([.. trend, "--last", "3"])).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrong_usage_exits_64_and_says_what_belongs_together()
    {
        string[] recheck = ["fixture", "recheck", "pinbed-1"];
        (await Program.Run([.. recheck, "--found", "1mm,2mm,3mm", "--by", "setter"])).Fails(64, "--master is missing");
        (await Program.Run([.. recheck, "--found", "1mm,2mm,3mm", "--master", "80mm"])).Fails(64, "--by is missing");
        (await Program.Run([.. recheck, "--master", "80mm"])).Fails(64, "needs --found");
        (await Program.Run([.. recheck, .. Found, "1mm,2mm,3mm", "--last", "3"])).Fails(64, "--last is for the trend");
        (await Program.Run([.. recheck, .. Found, "1mm,2mm"])).Fails(64, "has 2 parts");
        (await Program.Run([.. recheck, .. Found, "-1mm,2,3mm"])).Fails(64, "'2' in '-1mm,2,3mm' is no length with its unit");
        (await Program.Run([.. recheck, "--picture", "trend.png"])).Fails(64, "name one that ends with .svg");
    }
}
