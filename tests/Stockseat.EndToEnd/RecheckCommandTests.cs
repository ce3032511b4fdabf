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
    public async Task A_recheck_prints_the_prediction_the_found_place_the_uncertainty_and_its_verdict()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        // The demo's taught origin, with the master it was taught with: 0.02 mm down the seat axis (−0.576, 0.768, 0.28), 0.05 mm along u (0.8, 0.6, 0).
        string[] recheck = ["fixture", "recheck", "pinbed-1", .. Found];
        var text = (await service.Ask([.. recheck, "412.35152mm,-204.98536mm,117.9944mm", "--note", "pins cleaned"])).Exits(0).Out;
        Assert.Contains("predicted  412.300  -205.000  118.000", text, StringComparison.Ordinal);
        Assert.Contains("found      412.352  -204.985  117.994", text, StringComparison.Ordinal);
        Assert.Contains("miss: -0.020 mm along the seat axis, +0.050 mm across it, 0.000 mm out of the plan; 0.054 mm in all", text, StringComparison.Ordinal);
        Assert.Contains("expected: within U (k = 2) of ", text, StringComparison.Ordinal);
        Assert.Contains("passed: limits.recheck is not stated, so the miss along and across is compared with what is expected", text, StringComparison.Ordinal);

        // 2 mm up the seat axis.
        var missed = (await service.Ask([.. recheck, "411.148mm,-203.464mm,118.56mm", "--within", "2um", "--json"])).Exits(1).Object;
        Assert.Equal(("missed", true), (missed.GetProperty("verdict").GetString(), missed.GetProperty("refusesAsks").GetBoolean()));
        Assert.Equal(0.002, missed.GetProperty("miss").GetProperty("along").GetDouble(), 1e-9);
        var list = (await service.Ask("fixture", "list")).Exits(0).Out;
        Assert.Contains("recheck-failed", list, StringComparison.Ordinal);
        Assert.Equal("missed", (await service.Ask("fixture", "list", "--json")).Exits(0).Lines[0].GetProperty("missed").GetProperty("verdict").GetString());
        using var socket = await service.Connect();
        Assert.Equal($"{missed.GetProperty("serial").GetInt64()}", (await socket.Ask("status fixture=pinbed-1"))["missed"]);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "refused: recheck-failed: ");
        Assert.Contains(
            "found 0.054 mm from where it was predicted: within; pins cleaned", (await service.Ask("ledger", "list", "--kind", "recheck")).Exits(0).Out,
            StringComparison.Ordinal);
        (await service.Ask("ledger", "verify")).Exits(0);
    }

    [Fact]
    public async Task A_miss_refuses_asks_when_so_configured_even_after_a_kill_until_another_revision_is_adopted()
    {
        using var cell = new Cell();
        cell.Write("config/stockseat.json", (await File.ReadAllTextAsync(cell.Config, TestContext.Current.CancellationToken))
            .Replace("\"FirstAdoption\"", "\"RefuseAfterMiss\": true, \"FirstAdoption\"", StringComparison.Ordinal));
        cell.Publish("pinbed-1", 3, 4, ("\"shift\": \"40 mm\"", "\"shift\": \"40 mm\", \"recheck\": \"0.5 mm\""));
        await using (var first = await Program.Serve(cell))
        {
            // 0.51 mm along the normal (0.168, −0.224, 0.96).
            var text = (await first.Ask(["fixture", "recheck", "pinbed-1", .. Found, "412.38568mm,-205.11424mm,118.4896mm"])).Exits(1).Out;
            Assert.Contains("MISSED: the limit for the length of the miss, limits.recheck, is 0.5 mm", text, StringComparison.Ordinal);
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
    public async Task The_trend_is_a_table_with_control_limits_and_a_chart()
    {
        using var cell = new Cell();
        var picture = Path.Combine(cell.Folder, "trend.svg");
        await using var service = await Program.Serve(cell);
        string[] trend = ["fixture", "recheck", "pinbed-1"];
        Assert.Contains("has not been rechecked yet", (await service.Ask(trend)).Exits(0).Out, StringComparison.Ordinal);
        (await service.Ask([.. trend, "--picture", picture])).Exits(2);

        // 0.01 mm down and up the seat axis.
        for (var i = 0; i < 8; i++)
        {
            (await service.Ask([.. trend, .. Found, i % 2 == 0 ? "412.30576mm,-205.00768mm,117.9972mm" : "412.29424mm,-204.99232mm,118.0028mm"])).Exits(0);
        }

        var table = (await service.Ask([.. trend, "--picture", picture])).Exits(0).Out;

        // By hand: eight values alternating by ±0.01 mm: mean 0, moving ranges 0.02; 3 · 0.02 / 1.128 = 0.053.
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
        Assert.Contains(words, w => w.EndsWith("Local codes and licensed practice come first.", StringComparison.Ordinal));
        Assert.DoesNotContain(words, w => w.EndsWith('…'));
        var lines = (await service.Ask([.. trend, "--last", "3", "--json"])).Exits(0).Lines;
        Assert.Equal(3, lines.Count);
        Assert.Equal("passed", lines[0].GetProperty("verdict").GetString());
        Assert.Contains("3 rechecks: no control limits yet: they need "
            + "8", (await service.Ask([.. trend, "--last", "3"])).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrong_usage_exits_64_and_says_which_options_belong_together()
    {
        string[] recheck = ["fixture", "recheck", "pinbed-1"];
        (await Program.Run([.. recheck, "--found", "1mm,2mm,3mm", "--by", "setter"])).Fails(64, "--master is missing");
        (await Program.Run([.. recheck, "--found", "1mm,2mm,3mm", "--master", "80mm"])).Fails(64, "--by is missing");
        (await Program.Run([.. recheck, "--master", "80mm"])).Fails(64, "needs --found");
        (await Program.Run([.. recheck, .. Found, "1mm,2mm,3mm", "--last", "3"])).Fails(64, "--last is for the trend");
        (await Program.Run([.. recheck, .. Found, "1mm,2mm"])).Fails(64, "has 2 parts");
        (await Program.Run([.. recheck, .. Found, "-1mm,2,3mm"])).Fails(64, "'2' in '-1mm,2,3mm' is not a length with its unit");
        (await Program.Run([.. recheck, "--picture", "trend.png"])).Fails(64, "name a file that ends with .svg");
    }
}
