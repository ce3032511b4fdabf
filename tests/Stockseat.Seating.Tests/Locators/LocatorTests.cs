using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Locators;

public class LocatorTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(-0.006)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void APinWithoutARadius_Throws(double radius) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Pin(default, radius));

    /// <summary>double.NaN has the sign bit set, so a check for negative numbers catches it; a NaN that comes from arithmetic may not have it.</summary>
    [Fact]
    public void ARadiusThatIsAPositiveNaN_Throws() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Pin(default, BitConverter.UInt64BitsToDouble(0x7FF8000000000000)));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void APositionThatIsNotFinite_Throws(double metres)
    {
        foreach (var place in new PlanVector[] { new(metres, 0), new(0, metres) })
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Pin(place, 0.006));
            Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Face(place, 1));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Face(default, metres));
    }

    [Fact]
    public void AFaceWhoseEndIsNotANumber_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Face(default, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Locator.Face(default, 1, 0, double.NaN));
    }

    [Fact]
    public void AFacesNormal_IsItsAngleFromUTowardsV()
    {
        var face = Locator.Face(new(1, 2), Math.PI * 3 / 4);
        Close.To(new PlanVector(-Math.Sqrt(0.5), Math.Sqrt(0.5)), face.Normal, 1e-15);
        Assert.Equal(LocatorKind.Face, face.Kind);
        Assert.Equal(0, face.RadiusMetres);
        Assert.Equal((double.NegativeInfinity, double.PositiveInfinity), (face.FromMetres, face.ToMetres));
    }

    [Fact]
    public void Pins_LieHalfTheSpacingToEitherSide()
    {
        var nest = Nest.Pins(0.060, 0.012);
        Assert.Equal(Locator.Pin(new(-0.030, 0), 0.006), nest.First);
        Assert.Equal(Locator.Pin(new(0.030, 0), 0.006), nest.Second);
    }
}
