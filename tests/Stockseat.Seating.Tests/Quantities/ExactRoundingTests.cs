using System.Numerics;

namespace Stockseat.Seating.Tests.Quantities;

/// <summary>The oracle must be able to fail.</summary>
public class ExactRoundingTests
{
    [Fact]
    public void TheNearestDouble_IsAccepted_AndItsNeighboursAreNot()
    {
        Assert.True(ExactRounding.IsNearest(0.1, 1, 1));
        Assert.False(ExactRounding.IsNearest(Math.BitIncrement(0.1), 1, 1));
        Assert.False(ExactRounding.IsNearest(Math.BitDecrement(0.1), 1, 1));
        Assert.False(ExactRounding.IsNearest(-0.1, 1, 1));
        Assert.False(ExactRounding.IsNearest(double.NaN, 1, 1));
        Assert.False(ExactRounding.IsNearest(double.PositiveInfinity, 1, 1));
        Assert.False(ExactRounding.IsNearest(1e-300, 0, 1));
        Assert.True(ExactRounding.IsNearest(0, 0, 1));
    }

    [Fact]
    public void ATie_GoesToTheEvenDouble()
    {
        // 2^53 + 1 is exactly between 2^53 (even) and 2^53 + 2 (odd).
        var tie = BigInteger.Pow(2, 53) + 1;
        Assert.True(ExactRounding.IsNearest(9007199254740992, tie, 0));
        Assert.False(ExactRounding.IsNearest(9007199254740994, tie, 0));
    }
}
