using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Pages.Handover;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What the sheet for whoever comes next says.</summary>
public sealed partial class HandoverTests
{
    [Fact]
    public async Task The_sheet_says_what_is_open_what_was_done_and_what_was_refused_how_often()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm lot=A1077");
        await line.Ask("measured fixture=pinbed-1 diameter=92.45mm lot=A1077");
        var answer = await line.Ask("locate fixture=pinbed-1 lot=A1077");
        var serial = Serial().Match(answer).Groups[1].Value;
        var shift = string.Join(' ', Shift().Matches(answer).Select(m => m.Value));
        await line.Ask($"confirm serial={serial} {shift}");
        await line.Ask($"done serial={serial}");
        await line.Ask("locate fixture=veerack-2");
        await line.Ask("locate fixture=veerack-2");
        await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "rollers-3", By = "setter", Why = "rollers are cleaned" });
        bench.WritePins(4);

        var sheet = await page.Page("/handover");

        Assert.Contains("<strong>rollers-3, held:</strong> by setter since", sheet, StringComparison.Ordinal);
        Assert.Contains("<strong>pinbed-1, not proven:</strong> seat a master", sheet, StringComparison.Ordinal);
        Assert.Contains("<tr><th scope=\"row\">A1077</th><td>pinbed-1</td><td>2</td><td>92.400 to 92.450</td><td>1</td><td>1</td></tr>", sheet,
            StringComparison.Ordinal);
        Assert.Matches("<strong>2 × veerack-2, locate, measurement missing\\.</strong> Last at [^:]+:[0-9]{2} UTC: no measurement of veerack-2",
            WebUtility.HtmlDecode(sheet));
        Assert.DoesNotContain("pinbed-1, first", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_first_answer_is_open_until_it_is_carried_out()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm lot=A1077");

        Assert.Contains("<strong>pinbed-1, first answer:</strong> the next pick at nest 0,0", await page.Page("/handover"), StringComparison.Ordinal);

        await line.Ask("locate fixture=pinbed-1 lot=A1077");
        Assert.Contains("<strong>pinbed-1, first answer:</strong> the last answer was not carried out", await page.Page("/handover"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_that_may_not_review_sees_no_entries_and_one_with_a_fixture_sees_only_its_own()
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            var clients = s["Clients"]!.AsArray();
            clients.Insert(0, new JsonObject
            {
                ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("review"), ["Fixtures"] = new JsonArray("pinbed-1"),
            });
            clients.Insert(0, new JsonObject { ["Name"] = "gauge", ["From"] = new JsonArray("127.0.0.8"), ["Roles"] = new JsonArray("measure") });
        });
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");
        using var gauge = new PageClient(bench.Service.Page!, "127.0.0.8");
        using var line = await bench.Line();
        await line.Ask("locate fixture=veerack-2");
        await line.Ask("locate fixture=pinbed-1");

        var own = await tablet.Page("/handover");
        Assert.Contains("pinbed-1, locate", own, StringComparison.Ordinal);
        Assert.DoesNotContain("veerack-2", own, StringComparison.Ordinal);
        var none = await gauge.Page("/handover");
        Assert.Contains("needs the role review", none, StringComparison.Ordinal);
        Assert.DoesNotContain("measurement missing", none, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_texts_are_shown_as_texts()
    {
        const string Hostile = "</dd><script>document.title='mine'</script>\u202e\"'<img src=x onerror=alert(1)>";
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "pinbed-1", By = Hostile, Why = Hostile });

        var sheet = await page.Page("/handover");

        Assert.Contains("&lt;script&gt;document.title", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain('\u202e', sheet);
    }

    [Fact]
    public async Task Entries_before_the_hours_that_are_asked_for_and_more_than_are_looked_at_do_not_count()
    {
        var time = new FakeTimeProvider(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));
        await using var bench = await Bench.Start(time);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm lot=A1077");
        await time.Pass(TimeSpan.FromHours(1));
        await line.Ask("measured fixture=pinbed-1 diameter=92.42mm lot=A1077");
        await line.Ask("measured fixture=pinbed-1 diameter=92.44mm lot=A1077");
        using var reader = LedgerReader.Open(Path.Combine(bench.Folder, "data"));
        var now = time.GetUtcNow();

        Assert.Equal(3, Assert.Single(DayReader.Read(reader, now.AddHours(-2), _ => true).Lots).Measured);
        Assert.Equal(2, Assert.Single(DayReader.Read(reader, now.AddMinutes(-30), _ => true).Lots).Measured);
        var cut = DayReader.Read(reader, now.AddHours(-2), _ => true, most: 1);
        Assert.Equal((1, 0.09244), (Assert.Single(cut.Lots).Measured, cut.Lots[0].Least));
        Assert.StartsWith("2026-11-25T09:00", cut.CutAt, StringComparison.Ordinal);
    }

    [GeneratedRegex("serial=([0-9]+)")]
    private static partial Regex Serial();

    [GeneratedRegex("b[xyz]=[^ ]+")]
    private static partial Regex Shift();
}
