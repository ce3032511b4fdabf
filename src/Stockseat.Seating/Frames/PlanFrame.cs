namespace Stockseat.Seating.Frames;

/// <summary>
/// The axes of the plan in the base coordinate system: Q = [û v̂ ŵ], right-handed and orthonormal.
/// v̂ is the seat axis as given; ŵ is the normal, made square to it; û = v̂ × ŵ.
/// </summary>
public readonly record struct PlanFrame
{
    /// <summary>
    /// How far from square the two given axes may be: more than rounded digits explain, less than a wrong axis. Our own choice, without a source.
    /// </summary>
    public const double SquarenessLimitRadians = 0.01 * Math.PI / 180;

    private PlanFrame(Vector3 u, Vector3 v, Vector3 w)
    {
        U = u;
        V = v;
        W = w;
    }

    /// <summary>û in base.</summary>
    public Vector3 U { get; }

    /// <summary>v̂, the seat axis, in base.</summary>
    public Vector3 V { get; }

    /// <summary>ŵ, the normal out of the plan, in base.</summary>
    public Vector3 W { get; }

    /// <summary>Makes the frame from the seat axis and the normal, each of any positive length.</summary>
    /// <returns>False when an axis has no finite, positive length or the two are further from square than <see cref="SquarenessLimitRadians"/>.</returns>
    public static bool TryCreate(Vector3 seatAxis, Vector3 normal, out PlanFrame frame)
    {
        frame = default;
        if (!(seatAxis.Length > 1e-9 && normal.Length > 1e-9 && double.IsFinite(seatAxis.Length + normal.Length)))
        {
            return false;
        }

        var v = 1 / seatAxis.Length * seatAxis;
        var w = 1 / normal.Length * normal;
        var lean = Vector3.Dot(v, w);
        if (!(Math.Abs(lean) <= Math.Sin(SquarenessLimitRadians)))
        {
            return false;
        }

        w -= lean * v;
        w = 1 / w.Length * w;
        frame = new(Vector3.Cross(v, w), v, w);
        return true;
    }

    /// <summary>Q·plan: a displacement of the plan in base.</summary>
    public Vector3 ToBase(PlanVector plan) => plan.U * U + plan.V * V;
}
