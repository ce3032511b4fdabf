using System.Globalization;

namespace Stockseat.Seating.Frames;

/// <summary>A point or a displacement in the plan of a nest, in metres: U across the nest, V along the seat axis.</summary>
/// <param name="U">Across the nest, in metres.</param>
/// <param name="V">Along the seat axis, in metres; grows away from the locators.</param>
public readonly record struct PlanVector(double U, double V)
{
    /// <summary>Its length in metres.</summary>
    public double Length => Math.Sqrt(U * U + V * V);

    /// <summary>This turned by +90°, from +u towards +v.</summary>
    public PlanVector Turned => new(-V, U);

    /// <summary>
    /// The two coordinates, the same text in any culture. The text that the compiler makes would print <see cref="Turned"/> too, and so go on without end.
    /// </summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"({U}, {V})");

    public static PlanVector operator +(PlanVector a, PlanVector b) => new(a.U + b.U, a.V + b.V);

    public static PlanVector operator -(PlanVector a, PlanVector b) => new(a.U - b.U, a.V - b.V);

    public static PlanVector operator *(double k, PlanVector a) => new(k * a.U, k * a.V);

    /// <summary>The scalar product a·b.</summary>
    public static double Dot(PlanVector a, PlanVector b) => a.U * b.U + a.V * b.V;

    /// <summary>The signed area a×b: positive when b lies from a towards +90°.</summary>
    public static double Cross(PlanVector a, PlanVector b) => a.U * b.V - a.V * b.U;
}
