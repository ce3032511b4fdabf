using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The uncertainty of an answer, and what may be wrong with a measurement or a file, as a person sees it.</summary>
public abstract class UncertaintyCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : UncertaintyCommandTests(Build.Ordinary);

    public sealed class Native() : UncertaintyCommandTests(Build.Native);

    [Fact]
    public async Task A_budget_comes_with_an_answer_and_adds_up()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.40mm", "92.41mm", "--gauge", "bench-2", "--lot", "A1077")).Exits(0);

        var table = (await service.Ask("locate", "pinbed-1", "--budget")).Exits(0).Out;
        var json = (await service.Ask("locate", "pinbed-1", "--budget", "--json")).Exits(0).Object;

        Assert.Contains("What the uncertainty of nest 0,0 is made of", table, StringComparison.Ordinal);
        Assert.Contains("What the uncertainty of nest 5,0 is made of", table, StringComparison.Ordinal);
        Assert.Contains("gauge            ±0.03 mm   rectangular", table, StringComparison.Ordinal);
        AddsUp(json.GetProperty("uncertainty"), json.GetProperty("budgets")[0]);
        Assert.Equal(
            json.GetProperty("uncertaintyWorst").GetProperty("along").GetDouble(),
            json.GetProperty("budgets")[1].GetProperty("expanded").GetProperty("along").GetDouble());
        Assert.DoesNotContain("budgets", (await service.Ask("locate", "pinbed-1", "--json")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_inch_value_typed_for_a_millimetre_lot_is_refused_as_just_that()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        (await service.Ask("measured", "pinbed-1", "3.638mm", "--gauge", "bench-2", "--lot", "A1077")).Fails(1, "refused: measurement-outside-lot: ");
        Assert.Contains("inch", (await service.Ask("measured", "pinbed-1", "3.638mm", "--lot", "A1077")).Err, StringComparison.Ordinal);
        (await service.Ask("locate", "pinbed-1")).Fails(1, "refused: measurement-missing: ");
    }

    [Fact]
    public async Task The_check_of_a_file_shows_its_faults_advice_and_budgets()
    {
        using var cell = new Cell();
        var good = (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config, "--gauge", "bench-2", "--diameter", "92.4mm")).Exits(0).Out;
        Assert.Contains("r0003.json: no faults; pinbed-1 revision 3, digest 0af87b7722ce", good, StringComparison.Ordinal);
        Assert.Contains("At 92.400 mm, measured with bench-2:", good, StringComparison.Ordinal);
        Assert.Contains("U, k = 2", good, StringComparison.Ordinal);

        var advised = (await Program.Run("fixture", "check", "veerack-2", "2", "--config", cell.Config, "--json")).Exits(0).Object;
        Assert.Contains(
            advised.GetProperty("advice").EnumerateArray(), a =>
                a.GetString()!.StartsWith("a radius taken for a diameter would not be noticed", StringComparison.Ordinal));
        AddsUp(advised.GetProperty("budgets")[0].GetProperty("expanded"), advised.GetProperty("budgets")[0]);

        var file = Path.Combine(cell.Fixtures, "pinbed-1", "r0004.json");
        await File.WriteAllTextAsync(file, "{ \"fixture\": \"pinbed-1\", \"revision\": 5 }", TestContext.Current.CancellationToken);
        var faulty = (await Program.Run("fixture", "check", file)).Exits(1).Out;
        Assert.Contains("r0004.json: 5 faults; it can't be adopted", faulty, StringComparison.Ordinal);
        Assert.Contains("fault: " + file + ": revision: is 5; 4, the number in the name of the file, was expected", faulty, StringComparison.Ordinal);
        (await Program.Run("fixture", "check", "pinbed-1", "9", "--config", cell.Config)).Fails(2, "its folder has r0001.json");
        (await Program.Run("fixture", "check", "pinbed-1", "--gauge", "no-such", "--config", cell.Config)).Fails(64, "name one of bench-2");
    }

    private static void AddsUp(JsonElement u, JsonElement budget)
    {
        foreach (var (name, index) in new[] { ("along", 0), ("across", 1) })
        {
            var sum = budget.GetProperty("lines").EnumerateArray().Sum(l => Math.Pow(l.GetProperty("contribution")[index].GetDouble(), 2));
            Assert.Equal(u.GetProperty(name).GetDouble(), 2 * Math.Sqrt(sum), 1e-12);
            Assert.Equal(1, budget.GetProperty("lines").EnumerateArray().Sum(l => l.GetProperty("share")[index].GetDouble()), 1e-9);
        }
    }
}
