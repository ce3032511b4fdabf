using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>How far one frame of a plan is turned from another.</summary>
/// <param name="SeatAxisRadians">The angle between the seat axes, from 0 to π.</param>
/// <param name="NormalRadians">The angle between the normals, from 0 to π.</param>
/// <param name="AboutPlanRadians">The one turn from the first frame to the second, as a vector along its axis, in the first frame's u, v, w; its length is
/// the angle. For half a turn its direction is not known, and it is 0.</param>
public readonly record struct FrameTurn(double SeatAxisRadians, double NormalRadians, Vector3 AboutPlanRadians)
{
    /// <summary>The turn from one frame to another.</summary>
    public static FrameTurn Between(in PlanFrame from, in PlanFrame to)
    {
        // With R = fromᵀ·to, the difference of R and Rᵀ is 2 sin θ times the axis, and the trace of R is 1 + 2 cos θ.
        var sine = 0.5 * new Vector3(
            Vector3.Dot(from.W, to.V) - Vector3.Dot(from.V, to.W),
            Vector3.Dot(from.U, to.W) - Vector3.Dot(from.W, to.U),
            Vector3.Dot(from.V, to.U) - Vector3.Dot(from.U, to.V));
        var cosine = 0.5 * (Vector3.Dot(from.U, to.U) + Vector3.Dot(from.V, to.V) + Vector3.Dot(from.W, to.W) - 1);
        var turn = sine.Length > 0 ? Math.Atan2(sine.Length, cosine) / sine.Length * sine : default;
        return new(Angle(from.V, to.V), Angle(from.W, to.W), turn);
    }

    private static double Angle(Vector3 a, Vector3 b) => Math.Atan2(Vector3.Cross(a, b).Length, Vector3.Dot(a, b));
}
