using Stockseat.Seating.Envelopes;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>What passes over what: a part passes where it is at least as high, and does not where a height is not stated. Metres.</summary>
public class HeightTests
{
    private static readonly Plan Bed = Plans.Bed with
    {
        Columns = 2, ColumnStep = new(0.3, 0), LocatorTopMetres = 0.030, StockLengthMetres = 0.060,
        Obstacles = [new("post", new(0, 0.3), new(0, 0.3), 0.010, 0.040)],
        Gripper = Plans.ThreeJaws with { PalmDiameterMetres = 0.060 },
    };

    [Theory]
    [InlineData(null, "Pin Stock Obstacle")]
    [InlineData(0.0299, "Pin Stock Obstacle")]
    [InlineData(0.030, "Stock Obstacle")]
    [InlineData(0.040, "Stock")]
    [InlineData(0.059, "Stock")]
    [InlineData(0.060, "")]
    public void JawsAndPalm_MeetWhatIsHigherThanTheyAre(double? height, string meets)
    {
        var jaws = Bed with { Gripper = Bed.Gripper! with { JawTipHeightMetres = height } };
        Assert.Equal(meets, Met(jaws, PartyKind.Jaw));
        Assert.Equal("Pin Stock Obstacle", Met(jaws, PartyKind.Palm));
        var palm = Bed with { Gripper = Bed.Gripper! with { PalmHeightMetres = height } };
        Assert.Equal(meets, Met(palm, PartyKind.Palm));
        Assert.Equal("Pin Stock Obstacle", Met(palm, PartyKind.Jaw));
    }

    [Fact]
    public void APartWithoutAStatedHeight_IsMet()
    {
        var high = Bed with { Gripper = Bed.Gripper! with { JawTipHeightMetres = 1 }, LocatorTopMetres = null, StockLengthMetres = null };
        Assert.Equal("Pin Stock", Met(high, PartyKind.Jaw));
        Assert.Equal("Pin Stock Obstacle", Met(high with { Obstacles = [Bed.Obstacles[0] with { TopMetres = null }] }, PartyKind.Jaw));
    }

    [Fact]
    public void StockMeetsEverythingElsewhere_AndNothingInItsOwnNest()
    {
        Assert.Equal("Pin Stock Obstacle", Met(Bed, PartyKind.Stock));
        Assert.DoesNotContain(
            Gaps.At(Bed, 0.080), gap => gap.Mine.Kind == PartyKind.Stock && gap.Theirs is { Column: 0, Row: 0, Kind: not PartyKind.Obstacle });
    }

    /// <summary>Open jaws never pass over the stock that they are to grip.</summary>
    [Fact]
    public void OpenJaws_MeetTheirOwnStockAtAnyHeight()
    {
        var high = Bed with { Gripper = Bed.Gripper! with { JawTipHeightMetres = 1 } };
        Assert.Equal(3, Gaps.At(high, 0.080).Count(gap => gap.Mine.Kind == PartyKind.Jaw && gap.Theirs == new Party(PartyKind.Stock)));
    }

    /// <summary>The kinds that a part may meet, elsewhere or in its own nest, without the stock there.</summary>
    private static string Met(Plan plan, PartyKind mine) => string.Join(' ', Gaps.At(plan, 0.080)
        .Where(gap => gap.Mine.Kind == mine && gap.Theirs != new Party(PartyKind.Stock))
        .Select(gap => gap.Theirs.Kind).Distinct().OrderBy(kind => (kind == PartyKind.Obstacle, kind == PartyKind.Stock)));
}
