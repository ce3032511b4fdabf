using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Frames;

public class PlanFrameTests
{
    [Fact]
    public void AFlatBed_HasUFromVAndW()
    {
        Assert.True(PlanFrame.TryCreate(new(0, 1, 0), new(0, 0, 1), out var frame));
        Assert.Equal(new Vector3(1, 0, 0), frame.U);
        Assert.Equal(new Vector3(0.25, -2, 0), frame.ToBase(new(0.25, -2)));
    }

    [Fact]
    public void AxesOfAnyLength_BecomeARightHandedSquareFrame()
    {
        Assert.True(PlanFrame.TryCreate(new(3, 4, 0), new(8, -6, 0.5e-3), out var frame));
        Close.To(1, frame.U.Length, 1e-15);
        Close.To(new Vector3(0.6, 0.8, 0), frame.V, 1e-15);
        Close.To(0, Vector3.Dot(frame.V, frame.W), 1e-15);
        Close.To(frame.W, Vector3.Cross(frame.U, frame.V), 1e-15);
    }

    [Theory]
    [InlineData(0.0099, true)]
    [InlineData(-0.0099, true)]
    [InlineData(0.0101, false)]
    [InlineData(-0.0101, false)]
    [InlineData(90, false)]
    public void AxesOutOfSquare_AreAcceptedWithinAHundredthOfADegree(double degrees, bool taken)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        Assert.Equal(taken, PlanFrame.TryCreate(new(0, 1, 0), new(0, sin, cos), out var frame));
        if (taken)
        {
            Assert.Equal(new Vector3(0, 1, 0), frame.V);
            Close.To(new Vector3(0, 0, 1), frame.W, 1e-15);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e200)]
    public void AnAxisWithoutADirection_IsRefused(double length)
    {
        Assert.False(PlanFrame.TryCreate(new(0, length, 0), new(0, 0, 1), out var frame));
        Assert.Equal(default, frame);
        Assert.False(PlanFrame.TryCreate(new(0, 1, 0), new(0, 0, length), out frame));
        Assert.Equal(default, frame);
    }
}
