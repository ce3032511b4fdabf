using Stockseat.Service.Clients;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Lines;

/// <summary>Lines that are not requests get no entry: they are counted, and one a second is logged.</summary>
public class MalformedTests
{
    [Theory]
    [InlineData("whereis fixture=pinbed-1")]
    [InlineData("locate fixture=pinbed-1 diameter=92.4")]
    [InlineData("hello world=1")]
    [InlineData("status fixture=nowhere-9")]
    [InlineData("confirm serial=x")]
    [InlineData("\u0001")]
    public async Task Each_malformed_line_is_counted_and_the_first_is_logged_with_its_sender(string text)
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();
        await line.Ask("hello");
        var before = (await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Serial;

        Assert.StartsWith("refused ", await line.Ask(text), StringComparison.Ordinal);
        await line.Ask(text);

        var fixtures = await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new());
        Assert.Equal((before, 2), (fixtures.Serial, fixtures.TurnedAway[TurnedAway.Malformed.Name()]));
        Assert.Contains(bench.Log.All, e => e.Text.StartsWith("Refused a line of \"bench\" at \"127.0.0.1:", StringComparison.Ordinal));
    }

    [Fact]
    public void Every_cause_has_a_name_of_its_own()
    {
        var names = Enum.GetValues<TurnedAway>().Select(w => w.Name()).ToList();

        Assert.Equal(names.Count, names.Distinct().Count());
        Assert.All(names, n => Assert.Matches("^[a-z]+(-[a-z]+)*$", n));
    }
}
