using System.Xml.Linq;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The table of offsets and the card to hang up, as a setter makes them.</summary>
public abstract class TableCommandTests(Build build) : OnBothBuilds(build)
{
    /// <summary>A port on which nobody listens: discard, which needs root.</summary>
    private const string Nobody = "http://127.0.0.1:9";

    private const string Head = "fixture,revision,digest,in force,purpose,column,row,diameter [m],bx [m],by [m],bz [m],x [m],y [m],z [m],ualong [m],uacross "
        + "[m],ualongworst [m],uacrossworst [m]";

    public sealed class Ordinary() : TableCommandTests(Build.Ordinary);

    public sealed class Native() : TableCommandTests(Build.Native);

    [Theory]
    [InlineData("pick")]
    [InlineData("place")]
    public async Task Rows_are_the_answers_of_the_line_port(string purpose)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var line = await service.Connect();

        var rows = (await service.Ask("fixture", "table", "pinbed-1", "--purpose", purpose, "--step", "10mm", "--csv")).Exits(0).Out.Split("\r\n");

        Assert.Equal([Head, ""], [rows[0], rows[^1]]);
        Assert.Equal(["0.060000", "0.070000", "0.080000", "0.090000", "0.100000"], rows[1..^1].Select(r => r.Split(',')[7]));
        foreach (var row in rows[1..^1].Select(r => r.Split(',')))
        {
            var reply = await line.Ask($"locate fixture=pinbed-1 diameter={row[7]}m purpose={purpose}");
            Assert.Equal("yes", row[3]);
            Assert.Equal(
                new[] { "revision", "bx", "by", "bz", "x", "y", "z", "ualong", "uacross", "ualongworst", "uacrossworst" }.Select(key => reply[key]),
                [row[1], .. row[8..]]);
        }
    }

    [Fact]
    public async Task Text_and_JSON_name_the_revision_in_force()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var text = (await service.Ask("fixture", "table", "pinbed-1", "--from", "79.5mm", "--to", "81mm")).Exits(0).Out;
        Assert.StartsWith("pinbed-1 revision 3, in force, digest 0af87b7722ce", text, StringComparison.Ordinal);
        var rows = text.Split('\n')[5..8].Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).ToArray();
        Assert.Equal(["79.500", "80.000", "81.000"], rows.Select(r => r[0]));
        // By hand: √(46.3² − 30²) − √(46² − 30²) = 0.3948 mm along the seat axis (−0.576, 0.768, 0.28).
        Assert.Equal(["80.000", "-0.227", "0.303", "0.111", "412.073", "-204.697", "118.111", "0.383", "0.345", "taught"], rows[1]);

        var old = (await service.Ask("fixture", "table", "pinbed-1", "2", "--config", cell.Config, "--json", "--nest", "5,3", "--step", "0.5in")).Exits(0);
        Assert.Contains("pinbed-1 revision 2: NOT IN FORCE: revision 3 is, digest 0af87b7722ce", old.Err, StringComparison.Ordinal);
        Assert.False(old.Object.GetProperty("inForce").GetBoolean());
        Assert.Equal(
            ["0.060000", "0.063500", "0.076200", "0.080000", "0.088900", "0.100000"],
            old.Object.GetProperty("rows").EnumerateArray().Select(r => r.GetProperty("diameter").GetRawText()));
        Assert.False(old.Object.GetProperty("rows")[0].TryGetProperty("uncertainty", out _));

        (await service.Ask("fixture", "hold", "pinbed-1", "--by", "setter", "--why", "pins")).Exits(0);
        Assert.Contains(
            "The service now refuses all asks for this fixture: pinbed-1 is held by setter", (await service.Ask("fixture", "table", "pinbed-1")).Exits(0).Out,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_the_service_only_a_named_revision_gets_a_table()
    {
        using var cell = new Cell();
        (await Program.Run("fixture", "table", "pinbed-1", "--config", cell.Config, "--server", Nobody))
            .Fails(2, "Name a REVISION, or its file, to do without the service");

        foreach (var named in new[] { new[] { "pinbed-1", "3" }, [Path.Combine(cell.Fixtures, "pinbed-1", "r0003.json")] })
        {
            var run = (await Program.Run(["fixture", "table", .. named, "--config", cell.Config, "--server", Nobody])).Exits(0);
            Assert.StartsWith("pinbed-1 revision 3, NOT KNOWN whether it is in force, digest 0af87b7722ce", run.Out, StringComparison.Ordinal);
        }

        var json = (await Program.Run("fixture", "table", "pinbed-1", "3", "--config", cell.Config, "--server", Nobody, "--json")).Exits(0).Object;
        Assert.False(json.TryGetProperty("inForce", out _));
    }

    [Fact]
    public async Task A_card_is_one_page_that_loads_nothing_and_shows_foreign_text_as_text()
    {
        using var cell = new Cell();
        cell.Publish("pinbed-1", 3, 4, ("bed moved 40 mm", "<script>alert('1')</script> & \\u202egnp \\u0007 \\u2028 grün"));
        await using var service = await Program.Serve(cell);
        var card = Path.Combine(cell.Folder, "card.html");

        (await service.Ask("fixture", "table", "pinbed-1", "--card", card)).Exits(0);

        var text = await File.ReadAllTextAsync(card, TestContext.Current.CancellationToken);
        var page = XDocument.Parse(text);
        Assert.Empty(Directory.EnumerateFiles(cell.Folder, "*.part"));
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "script" or "link" or "img" or "iframe" or "object" or "base");
        Assert.DoesNotContain(
            page.Descendants().Attributes(), a =>
                a.Name.LocalName is "src" or "href" or "style" || a.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        Assert.DoesNotContain("url(", text, StringComparison.Ordinal);
        var words = page.Descendants().Where(e => !e.HasElements).Select(e => e.Value).ToArray();
        Assert.Contains("pinbed-1, revision 4", words);
        Assert.Contains("VOID AFTER ANY ADOPTION", words);
        Assert.Contains(words, w => w.EndsWith("; <script>alert('1')</script> & ?gnp ? ? grün", StringComparison.Ordinal));
        Assert.Contains(words, w => w.StartsWith("In force when this was printed, ", StringComparison.Ordinal));
        Assert.Contains(words, w => w.StartsWith("NOT PROVEN by rechecks when this was printed, ", StringComparison.Ordinal)
            && w.EndsWith("What was lacking: seat a master in nest 0,0; seat a master in nest 5,0; seat a master in nest 0,3.", StringComparison.Ordinal));
        Assert.Contains((await service.Ask("fixture", "list", "--json")).Exits(0).Lines[0].GetProperty("digest").GetString(), words);
        var taught = Assert.Single(page.Descendants("tr"), r => r.Attribute("class")?.Value.Contains("taught", StringComparison.Ordinal) == true);
        Assert.Equal(
            ["80.000", "3.1496", "−0.227", "+0.303", "+0.111", "412.073", "−204.697", "118.111", "0.383", "0.345", "taught"],
            taught.Elements().Select(e => e.Value));
        Assert.Single(page.Descendants(XName.Get("svg", "http://www.w3.org/2000/svg")), s => s.Attribute("height")?.Value == "114mm");
    }

    [Fact]
    public async Task A_card_of_a_revision_that_is_not_in_force_says_so_on_each_page()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var card = cell.Write("card.html", new('x', 1_000_000));

        (await service.Ask("fixture", "table", "pinbed-1", "2", "--config", cell.Config, "--card", card)).Exits(0);

        var page = XDocument.Parse(await File.ReadAllTextAsync(card, TestContext.Current.CancellationToken));
        Assert.EndsWith("NOT IN FORCE when printed.", page.Descendants("thead").First().Descendants("th").First().Value, StringComparison.Ordinal);
        Assert.Contains(
            page.Descendants("p"), p => p.Value.StartsWith("NOT IN FORCE when this was printed, ", StringComparison.Ordinal)
                && p.Value.EndsWith(": revision 3 is, digest 0af87b7722ce. Don't use it.", StringComparison.Ordinal));
        Assert.Contains(page.Descendants("p"), p => p.Value.StartsWith("The uncertainty is not known", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_table_that_can_not_be_made_is_reported()
    {
        using var cell = new Cell();
        string[] table = ["fixture", "table", "pinbed-1", "3", "--config", cell.Config, "--server", Nobody];
        (await Program.Run([.. table, "--step", "1"])).Fails(64, "it has no unit");
        (await Program.Run([.. table, "--step", "0.0005mm"])).Fails(64, "whole micrometres, or whole ten-thousandths of an inch");
        (await Program.Run([.. table, "--step", "0.01mm"])).Fails(64, "makes 4001 rows; at most 2000 are made");
        (await Program.Run([.. table, "--from", "90mm", "--to", "80mm"])).Fails(64, "--from is above --to");
        (await Program.Run([.. table, "--from", "101mm"])).Fails(1, "refused: diameter-above-envelope: a diameter of 101.000 mm is too large");
        (await Program.Run([.. table, "--from", "99999999999999999999999999999999999mm"])).Fails(64, "(it is above 1000 m)");
        (await Program.Run([.. table, "--step", "99999999999999999999999999999999999mm"])).Fails(64, "(it is above 1000 m)");
        (await Program.Run([.. table, "--nest", "6,0"])).Fails(1, "refused: nest-unknown: ");
        (await Program.Run([.. table, "--gauge", "none"])).Fails(64, "there is no gauge 'none'");
        (await Program.Run([.. table, "--csv", "--json"])).Fails(64, "name one of them");
        (await Program.Run([.. table, "--card", Path.Combine(cell.Folder, "config", "stockseat.json")])).Fails(64, "name a file that ends with .html");
        (await Program.Run([.. table, "--card", Path.Combine(cell.Folder, "no", "such", "card.html")])).Fails(2, "can't be written");
        (await Program.Run("fixture", "table", "pinbed-1", "9", "--config", cell.Config)).Fails(2, "its folder has r0001.json");
    }

    /// <summary>One list of what a check found, and of what the file changes.</summary>
    [Fact]
    public async Task Check_prints_its_findings_in_one_list_and_the_changes_from_the_previous_revision()
    {
        using var cell = new Cell();
        cell.Publish("pinbed-1", 3, 4, ("-205.00 mm", "-206.00 mm"), ("\"shift\": \"40 mm\",", ""), ("\"100 mm\" ]", "\"130 mm\" ]"));
        var run = (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config)).Exits(1).Out;
        Assert.Contains("Changes from revision 3:", run, StringComparison.Ordinal);
        Assert.Contains("taught.position.y   -205.00 mm  -206.00 mm", run, StringComparison.Ordinal);
        Assert.Contains("limits.shift        40 mm       not stated", run, StringComparison.Ordinal);

        var json = (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config, "--json")).Exits(1).Object;
        Assert.Equal(["fault", "advice"], json.GetProperty("findings").EnumerateArray().Select(f => f.GetProperty("severity").GetString()));
        Assert.Equal(1, json.GetProperty("faults").GetArrayLength());
        Assert.Equal("calibrated", json.GetProperty("findings")[1].GetProperty("where").GetString());
        Assert.Equal(
            ["taught.position.y", "limits.diameter[1]", "limits.shift"],
            json.GetProperty("changes").GetProperty("keys").EnumerateArray().Select(c => c.GetProperty("key").GetString()));
        Assert.Equal(3, json.GetProperty("changes").GetProperty("from").GetInt32());
    }
}
