using Stockseat.Plant.Forwarding;
using Stockseat.Service.Pages.Board;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What the board says of the plant store.</summary>
public sealed class PlantLinesTests
{
    private static readonly ForwardingState Good = new("db/plant", Connected: true, Waiting: false, Cause: null, Stored: 12, Even: null, Faults: []);

    [Fact]
    public void Store_with_every_entry_needs_nobody() =>
        Assert.Equal([new BoardLine("Plant store", "reached; every entry is stored")], PlantLines.Of(Good, 0, TimeSpan.Zero));

    [Theory]
    [InlineData(30, false)]
    [InlineData(300, true)]
    public void Entries_that_wait_for_long_matter(int seconds, bool matters)
    {
        var line = Assert.Single(PlantLines.Of(Good, 1200, TimeSpan.FromSeconds(seconds)));

        Assert.StartsWith("reached; 1200 entries wait, all were stored ", line.Text, StringComparison.Ordinal);
        Assert.Equal(matters, line.Matters);
    }

    [Fact]
    public void Store_that_is_away_says_why_and_that_answers_go_on()
    {
        var line = Assert.Single(PlantLines.Of(Good with { Connected = false, Cause = "the plant store db/plant: no route" }, 1, null));

        Assert.Equal(new("Plant store", "not reached, and answers go on: the plant store db/plant: no route; 1 entry waits", true), line);
    }

    [Fact]
    public void Ledger_that_differs_is_an_alarm() =>
        Assert.Contains(new("Plant store alarm", "ledger 1 differs", true), PlantLines.Of(Good with { Faults = ["ledger 1 differs"] }, 0, TimeSpan.Zero));
}
