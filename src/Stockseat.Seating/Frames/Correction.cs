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
    public static Correction Of(Pose baseFromOrigin, in PlanFrame frame, Vector3 nestOffsetBase, PlanVector shiftPlan)
    {
        var shiftBase = frame.ToBase(shiftPlan);
        return new(
            baseFromOrigin with { PositionMetres = baseFromOrigin.PositionMetres + nestOffsetBase + shiftBase },
            shiftBase,
            baseFromOrigin.Orientation.ApplyInverse(shiftBase));
    }
}
