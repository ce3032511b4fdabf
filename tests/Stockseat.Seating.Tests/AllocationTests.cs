using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests;

/// <summary>The path of an answer, from text to pose, allocates nothing on the heap: the garbage collector has nothing to interrupt an answer for.</summary>
public class AllocationTests
{
    private static readonly string[] Texts =
    [
        "92.40mm", "3.638 in", "0.0924 m", "92400 um", "1234567890123456789012345678901234567890.12345678901234567890mm",
        "92,40mm", "92.40", "", "1e3mm", "5 furlong",
    ];

    private static readonly Nest[] Nests =
    [
        Nest.Pins(0.060, 0.012),
        Nest.Vee(Math.PI / 2, 0.004, 0.080),
        Nest.Vee(Math.PI / 2, 0, 0.001),
        new(Locator.Pin(new(-0.03, 0), 0.006), Locator.Face(new(0.02, 0), Math.PI * 3 / 4)),
        new(Locator.Face(new(-0.02, 0), 0), Locator.Face(new(0.02, 0), Math.PI)),
        new(Locator.Pin(new(-0.01, 0), 0.003), Locator.Pin(new(0.01, 0.025), 0.003)),
    ];

    [Fact]
    public void ThePathOfAnAnswer_AllocatesNothing()
    {
        Assert.True(PlanFrame.TryCreate(new(0, 1, 0), new(0, 0, 1), out var frame));
        var origin = new Pose(new(0.4123, -0.205, 0.118), Rotation.FromQuaternion(0, 1, 0, 0));
        var warm = Answer(frame, origin, 10);

        var before = GC.GetAllocatedBytesForCurrentThread();
        var sum = Answer(frame, origin, 1000);
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.Equal(0, allocated);
        Close.To(100 * warm, sum, 1e-6);
        Assert.NotEqual(0, sum);
    }

    /// <summary>The meter works: it notices a single small object.</summary>
    [Fact]
    public void TheMeter_NoticesASingleObject()
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        var something = new object();
        Assert.True(GC.GetAllocatedBytesForCurrentThread() > before);
        GC.KeepAlive(something);
    }

    private static double Answer(in PlanFrame frame, Pose origin, int times)
    {
        var sum = 0.0;
        for (var i = 0; i < times; i++)
        {
            foreach (var text in Texts)
            {
                var diameter = Quantity.TryParseLength(text, allowSign: false, out var metres) == QuantityFault.None && metres < 1 ? metres : 0.08;
                foreach (ref readonly var nest in Nests.AsSpan())
                {
                    if (SeatSolver.TrySeat(nest, diameter / 2, out var seat) == SeatFault.None
                        && SeatSolver.TryClear(nest, diameter / 2, 0.0003, out var clear) == SeatFault.None)
                    {
                        var correction = Correction.Of(origin, frame, default, clear.Centre - seat.Centre + seat.Solve(1e-5, 1e-5));
                        sum += correction.Pose.PositionMetres.Y + correction.ShiftOrigin.Y + seat.Sensitivity;
                    }
                }
            }
        }

        return sum;
    }
}
