namespace Stockseat.Seating.Frames;

/// <summary>
/// A shift of the plan, in the two forms that robot programs need. The two shifts never share a name: a program that adds in base needs
/// <see cref="ShiftBase"/>, a program that multiplies poses needs <see cref="ShiftOrigin"/>.
/// </summary>
/// <param name="Pose">The corrected pose of the nest in base: metres; the taught orientation, unchanged.</param>
/// <param name="ShiftBase">The shift in the base coordinate system, in metres: Q·shift_plan.</param>
/// <param name="ShiftOrigin">The same shift in the taught origin's own axes, in metres: R_originᵀ·shift_base.</param>
public readonly record struct Correction(Pose Pose, Vector3 ShiftBase, Vector3 ShiftOrigin)
{
    /// <summary>Applies a shift of the plan at a nest.</summary>
    /// <param name="baseFromOrigin">The taught origin in base.</param>
    /// <param name="frame">The plan's axes in base.</param>
    /// <param name="nestOffsetBase">From nest 0,0 to the nest that is asked for, in base, in metres.</param>
    /// <param name="shiftPlan">C(R + g) − C(R_taught), in metres.</param>
    public static Correction Of(Pose baseFromOrigin, in PlanFrame frame, Vector3 nestOffsetBase, PlanVector shiftPlan) =>
        Of(baseFromOrigin, nestOffsetBase, frame.ToBase(shiftPlan));

    /// <summary>The same with a shift along the normal, as the stock's length asks for it.</summary>
    /// <param name="baseFromOrigin">The taught origin in base.</param>
    /// <param name="frame">The plan's axes in base.</param>
    /// <param name="nestOffsetBase">From nest 0,0 to the nest that is asked for, in base, in metres.</param>
    /// <param name="shiftPlan">C(R + g) − C(R_taught), in metres.</param>
    /// <param name="alongNormalMetres">The shift along the normal, in metres; null: there is none.</param>
    public static Correction Of(Pose baseFromOrigin, in PlanFrame frame, Vector3 nestOffsetBase, PlanVector shiftPlan, double? alongNormalMetres) =>
        alongNormalMetres is { } normal
            ? Of(baseFromOrigin, nestOffsetBase, frame.ToBase(shiftPlan) + (normal * frame.W))
            : Of(baseFromOrigin, frame, nestOffsetBase, shiftPlan);

    private static Correction Of(Pose baseFromOrigin, Vector3 nestOffsetBase, Vector3 shiftBase)
    {
        return new(
            baseFromOrigin with { PositionMetres = baseFromOrigin.PositionMetres + nestOffsetBase + shiftBase },
            shiftBase,
            baseFromOrigin.Orientation.ApplyInverse(shiftBase));
    }
}
