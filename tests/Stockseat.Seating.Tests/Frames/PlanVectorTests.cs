using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Frames;

public class PlanVectorTests
{
    /// <summary>The compiler's text of a record prints every property: Turned has a Turned in it, and the stack overflows.</summary>
    [Fact]
    public void ToString_Ends()
    {
        Assert.Equal("(0.25, -1)", new PlanVector(0.25, -1).ToString());
        Assert.Contains("(0.25, -1)", Locator.Pin(new(0.25, -1), 0.5).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Turned_TurnsFromUTowardsV() => Assert.Equal(new PlanVector(0, 1), new PlanVector(1, 0).Turned);

    [Fact]
    public void Cross_IsPositiveFromUTowardsV() => Assert.Equal(1, PlanVector.Cross(new(1, 0), new(0, 1)));
}
