using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>From touched nests to the file of the next revision, as a setter does it.</summary>
public abstract class CalibrateCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : CalibrateCommandTests(Build.Ordinary);

    public sealed class Native() : CalibrateCommandTests(Build.Native);

    [Fact]
    public async Task Touched_nests_become_the_next_revision_and_no_file_is_overwritten()
    {
        using var cell = new Cell();
        var table = Path.Combine(cell.Folder, "config", "touched-veerack-2.csv");
        string[] calibrate = ["fixture", "calibrate", "veerack-2", table, "--by", "day setter", "--config", cell.Config];

        var said = (await Program.Run(calibrate)).Exits(0).Out;

        Assert.Contains("seat axis (-0.500065, 0.865988, 0.000394)", said, StringComparison.Ordinal);
        Assert.Contains("r0003.json", said, StringComparison.Ordinal);
        var file = Path.Combine(cell.Fixtures, "veerack-2", "r0003.json");
        var written = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        Assert.Contains("\"method\": \"6 nests touched with a master of 80 mm\"", written, StringComparison.Ordinal);
        (await Program.Run("fixture", "check", "veerack-2", "--config", cell.Config)).Exits(0);

        (await Program.Run([.. calibrate, "--as", "3"])).Fails(2, "r0003.json exists already");
        Assert.Equal(written, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));

        // From revision 2 again, whatever came after it; the fit is the same to the last digit in JSON.
        var json = JsonSerializer.Deserialize<JsonElement>((await Program.Run([.. calibrate, "2", "--json"])).Exits(0).Out);
        Assert.EndsWith("r0004.json", json.GetProperty("written").GetString(), StringComparison.Ordinal);
        Assert.Equal(6, json.GetProperty("frame").GetProperty("nests").GetArrayLength());
        Assert.Equal(6, json.GetProperty("frame").GetProperty("covariance").GetArrayLength());
    }

    /// <summary>Nests 0 to 2 named as 2 to 4: they are off by two pitches of 114.3 mm, and fit equally well.</summary>
    [Fact]
    public async Task An_origin_from_the_touched_nests_says_how_far_it_moves()
    {
        using var cell = new Cell();
        string[] Lines(
            IEnumerable<string> lines) => [.. lines.Where(l => l[0] is 'n' || l[1] is not '0')
                .Select(l => l.Replace("\"2,", "\"0,", StringComparison.Ordinal).Replace("\"4,", "\"2,", StringComparison.Ordinal))];
        var table = cell.Write(
            "touched.csv", string.Join(
                '\n',
                Lines(await File.ReadAllLinesAsync(Path.Combine(cell.Folder, "config", "touched-veerack-2.csv"), TestContext.Current.CancellationToken))));

        var said = (await Program.Run("fixture", "calibrate", "veerack-2", table, "--by", "day setter", "--config", cell.Config, "--origin", "touched"))
            .Exits(0).Out;

        Assert.Contains("The origin moves 228.6", said, StringComparison.Ordinal);
        Assert.Contains("mm from that of revision 2 (228.6", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Touches_that_can_not_be_fitted_write_nothing_and_are_reported()
    {
        using var cell = new Cell();
        var good = await File.ReadAllLinesAsync(Path.Combine(cell.Folder, "config", "touched-veerack-2.csv"), TestContext.Current.CancellationToken);
        string[] Calibrate(string[] lines, params string[] more) =>
            [
                "fixture", "calibrate", "veerack-2", cell.Write("touched.csv", string.Join('\n', lines)), "--by", "day setter", "--config", cell.Config,
                .. more,
            ];
        string Swapped(string line) => line.Replace("x [mm],y [mm]", "y [mm],x [mm]", StringComparison.Ordinal);

        (await Program.Run(Calibrate(good[..2]))).Exits(1);
        (await Program.Run(Calibrate(good[1..]))).Fails(1, "names no known column");
        (await Program.Run(Calibrate([good[0].Replace(" [mm]", "", StringComparison.Ordinal), .. good[1..]]))).Fails(1, "states no unit");
        (await Program.Run(Calibrate([.. good, "\"9,9\",80,NaN,1,2"]))).Fails(1, "touched.csv: line 8: x is 'NaN'");
        Assert.Contains("points against the stated one", (await Program.Run(Calibrate([.. good.Select(Swapped)]))).Exits(1).Out, StringComparison.Ordinal);
        Assert.Contains("the limit is 0.1 mm", (await Program.Run(Calibrate(good, "--residual-limit", "0.1mm"))).Exits(1).Out, StringComparison.Ordinal);
        (await Program.Run(Calibrate(good, "--residual-limit", "0.1"))).Fails(64, "it has no unit");
        (await Program.Run(Calibrate(good, "--origin", "elsewhere"))).Exits(64);
        (await Program.Run(Calibrate(good, "--touching", "0.05mm"))).Fails(64, "--touching needs --fit-locators");
        (await Program.Run("fixture", "calibrate", "veerack-2", "no.csv", "--by", "x", "--config", cell.Config)).Fails(2, "no.csv can't be read");
        (await Program.Run("fixture", "calibrate", "veerack-2", "", "--by", "x", "--config", cell.Config)).Fails(2, "'' can't be read");
        (await Program.Run("fixture", "calibrate", "veerack-2", "/dev/zero", "--by", "x", "--config", cell.Config)).Fails(2, "/dev/zero is not a regular file");
        (await Program.Run(Calibrate(good, "--dry-run"))).Exits(0);

        Assert.Equal(["r0001.json", "r0002.json"], Directory.GetFiles(Path.Combine(cell.Fixtures, "veerack-2")).Select(Path.GetFileName).Order());
    }
}
