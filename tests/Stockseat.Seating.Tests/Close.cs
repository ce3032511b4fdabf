using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests;

/// <summary>Closeness with a stated tolerance. NaN is close to nothing; infinity only to itself.</summary>
public static class Close
{
    public static bool Is(double expected, double actual, double tolerance) =>
        expected == actual || Math.Abs(expected - actual) <= tolerance && double.IsFinite(expected) && double.IsFinite(actual);

    public static void To(double expected, double actual, double tolerance) =>
        Assert.True(Is(expected, actual, tolerance), $"expected {expected:R}, was {actual:R}, tolerance {tolerance:R}");

    public static void To(PlanVector expected, PlanVector actual, double tolerance)
    {
        To(expected.U, actual.U, tolerance);
        To(expected.V, actual.V, tolerance);
    }

    public static void To(Vector3 expected, Vector3 actual, double tolerance)
    {
        To(expected.X, actual.X, tolerance);
        To(expected.Y, actual.Y, tolerance);
        To(expected.Z, actual.Z, tolerance);
    }
}
