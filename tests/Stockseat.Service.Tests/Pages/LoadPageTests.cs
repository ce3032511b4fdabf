using System.Net;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What stands in the nests, said and settled at a page.</summary>
public sealed class LoadPageTests
{
    private const string Load = "/load/pinbed-1";

    [Fact]
    public async Task A_load_is_stated_once_and_shown_with_the_move_that_is_open()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm");
        Assert.Contains("Nobody has said what stands in the nests.", await page.Page(Load), StringComparison.Ordinal);
        (string, string)[] form = [("form", await page.Token(Load)), ("first", "3"), ("nests", ""), ("lot", "")];

        using var sent = await page.Post(Load, form);
        using var again = await page.Post(Load, form);

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (sent.StatusCode, again.StatusCode));
        Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "loaded");
        var serial = Regex.Match(await line.Ask("next fixture=pinbed-1"), "serial=([0-9]+)").Groups[1].Value;
        var shown = await page.Page(Load);
        Assert.Contains("3 of 3 nests with raw stock are left", shown, StringComparison.Ordinal);
        Assert.Equal(
            ("raw, unfinished", 2, 21, "3 2 1 0"),
            (Regex.Match(shown, "<td class=\"matters\">(.*)</td>").Groups[1].Value, Regex.Count(shown, "<td class=\"plain\">raw</td>"),
                Regex.Count(shown, "<td class=\"plain\">empty</td>"),
                string.Join(' ', Regex.Matches(shown, "<th scope=\"row\">([0-9]+)</th>").Select(m => m.Groups[1].Value))));
        Assert.Contains($"answer {serial}, a pick at nest 0,0, is unfinished", shown, StringComparison.Ordinal);
        Assert.Contains($"href=\"/dropped/{serial}\"", shown, StringComparison.Ordinal);
        Assert.Contains("is unfinished", await page.Page("/"), StringComparison.Ordinal);

        var path = $"/dropped/{serial}";
        using var dropped = await page.Post(path, ("form", await page.Token(path)), ("by", "day setter"));

        Assert.Equal(HttpStatusCode.SeeOther, dropped.StatusCode);
        Assert.DoesNotContain($"answer {serial}", await page.Page(Load), StringComparison.Ordinal);
        Assert.StartsWith("ok", await line.Ask("next fixture=pinbed-1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_person_settles_a_move_that_was_never_read_back()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm");
        await line.Ask("loaded fixture=pinbed-1 first=2");
        var serial = LineClient.Value(await line.Ask("next fixture=pinbed-1"), "serial");
        Assert.StartsWith("refused class=cell reason=confirmation-missing", await line.Ask($"done serial={serial}"), StringComparison.Ordinal);
        var path = $"/done/{serial}";
        Assert.Contains("Look at nest 0,0 and at the gripper first", await page.Page(path), StringComparison.Ordinal);

        using var sent = await page.Post(path, ("form", await page.Token(path)), ("by", "day setter"));

        Assert.Equal("/load/pinbed-1", $"{sent.Headers.Location}");
        Assert.Contains("1 of 2 nests with raw stock are left", await page.Page("/load/pinbed-1"), StringComparison.Ordinal);
        Assert.Matches(" nest=1,0 .* first=yes ", await line.Ask("next fixture=pinbed-1"));
    }

    [Theory]
    [InlineData("many", "", "How many nests is &#x27;many&#x27;")]
    [InlineData("", "0,0;1,0", "column,row of each was expected")]
    [InlineData("99", "", "the first 99 nests were stated")]
    [InlineData("1", "0,0", "were both stated")]
    public async Task Whatever_is_not_understood_is_said(string first, string nests, string said)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Post(Load, ("form", await page.Token(Load)), ("first", first), ("nests", nests), ("lot", ""));

        Assert.NotEqual(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.Contains(said, await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
