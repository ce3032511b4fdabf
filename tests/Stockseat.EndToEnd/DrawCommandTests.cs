using System.Xml.Linq;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The page with a nest drawn to scale, as a setter makes it.</summary>
public abstract class DrawCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : DrawCommandTests(Build.Ordinary);

    public sealed class Native() : DrawCommandTests(Build.Native);

    [Theory]
    [InlineData("pinbed-1")]
    [InlineData("veerack-2")]
    [InlineData("rollers-3")]
    public async Task A_page_of_each_fixture_goes_to_stdout(string fixture)
    {
        using var cell = new Cell();

        var words = Words((await Program.Run("fixture", "draw", fixture, "--config", cell.Config)).Exits(0).Out);

        Assert.Contains(words, w => w.StartsWith($"{fixture}, revision ", StringComparison.Ordinal));
        Assert.Contains(words, w => w.StartsWith("pick, stand-off ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_drawing_of_a_file_replaces_an_older_page()
    {
        using var cell = new Cell();
        cell.Publish("pinbed-1", 3, 4, ("bed moved 40 mm", "Bett um 40 mm versetzt <gemäß & geprüft>"));
        var (file, page) = (Path.Combine(cell.Fixtures, "pinbed-1", "r0004.json"), Path.Combine(cell.Folder, "page.svg"));
        cell.Write("page.svg", new('x', 1_000_000));

        var run = (await Program.Run("fixture", "draw", file, "--diameter", "92.40mm", "--diameter", "3.5in", "--purpose", "place", "--output", page)).Exits(0);

        var words = Words(await File.ReadAllTextAsync(page, TestContext.Current.CancellationToken));
        Assert.Empty(run.Out);
        Assert.Contains("pinbed-1, revision 4", words);
        Assert.Contains("place, stand-off 0.5 mm", words);
        Assert.Contains("A  92.4", words);
        Assert.Contains("B  88.9", words);
        Assert.Contains("four nests touched with the 80 mm master; Bett um 40 mm versetzt <gemäß & geprüft>", words);
    }

    [Fact]
    public async Task A_page_that_can_not_be_drawn_is_reported()
    {
        using var cell = new Cell();
        string[] draw = ["fixture", "draw", "pinbed-1", "--config", cell.Config];
        (await Program.Run([.. draw, "--diameter", "92.4"])).Fails(64, "it has no unit");
        (await Program.Run([.. draw, .. Enumerable.Range(80, 7).SelectMany(d => new[] { "--diameter", $"{d}mm" })])).Fails(64, "at most 6 were expected");
        (await Program.Run([.. draw, "--output", Path.Combine(cell.Folder, "config", "stockseat.json")])).Fails(64, "name a file that ends with .svg");
        (await Program.Run([.. draw, "--output", Path.Combine(cell.Folder, "no", "such", "page.svg")])).Fails(2, "can't be written");
        (await Program.Run([.. draw, "9"])).Fails(2, "its folder has r0001.json");

        cell.Write("config/fixtures/pinbed-1/r0004.json", "{ \"fixture\": \"pinbed-1\", \"revision\": 5 }");
        (await Program.Run(draw)).Fails(1, "revision: is 5; 4, the number in the name of the file, was expected");
    }

    private static string[] Words(string svg)
    {
        XNamespace ns = "http://www.w3.org/2000/svg";
        return [.. XDocument.Parse(svg).Descendants(ns + "text").Select(t => t.Value)];
    }
}
