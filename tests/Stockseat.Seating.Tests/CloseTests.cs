namespace Stockseat.Seating.Tests;

/// <summary>The helper must be able to fail: most of all when a value is infinite or not a number.</summary>
public class CloseTests
{
    [Theory]
    [InlineData(1, 1.1, 0.2, true)]
    [InlineData(1, 1.1, 0.05, false)]
    [InlineData(1, double.NaN, 10, false)]
    [InlineData(double.NaN, 1, 10, false)]
    [InlineData(double.NaN, double.NaN, 10, false)]
    [InlineData(double.PositiveInfinity, 1, double.PositiveInfinity, false)]
    [InlineData(1, double.PositiveInfinity, double.PositiveInfinity, false)]
    [InlineData(double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity, false)]
    [InlineData(double.PositiveInfinity, double.PositiveInfinity, 0, true)]
    public void Is_Compares_WithinTheTolerance(double expected, double actual, double tolerance, bool close) =>
        Assert.Equal(close, Close.Is(expected, actual, tolerance));
}
