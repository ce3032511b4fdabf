using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Envelopes;

/// <summary>
/// Everything that limits a diameter, except gaps. Going outward from the taught diameter, each limit holds up to some diameter and not beyond it, so that
/// diameter can be found by bisection:
/// <list type="bullet">
/// <item>A seat: above the diameter that drops and below the one that rolls off. As R grows, the contact normals turn one way only, towards each other.</item>
/// <item>The held angle and the sensitivity fall as R grows, for the same reason.</item>
/// <item>A contact moves one way along its face: linear in R with two faces, as a square root in R with pin and face.</item>
/// <item>The shift is the chord from C(R_taught) to C(R + g). It is 0 at R = R_taught − g and grows both ways from there (see <see cref="Part.Moved"/>). With a
/// stand-off it first falls when R falls from the taught radius; but the diameters whose shift is below a limit are still one interval, and the taught diameter
/// lies in it.</item>
/// <item>Mass and stroke grow with the diameter.</item>
/// </list>
/// </summary>
internal static class PlanLimits
{
    /// <summary>The bisection ends at this, in metres: far below the 1 µm that is promised.</summary>
    private const double ResolutionMetres = 1e-12;

    /// <summary>The constraint that does not hold at a diameter; null when all hold.</summary>
    public static (Constraint Constraint, double? Limit)? Broken(Plan plan, double diameterMetres) =>
        Range(plan, diameterMetres) ?? Seated(plan, diameterMetres / 2) ?? Payload(plan, diameterMetres) ?? Stroke(plan, diameterMetres);

    /// <summary>The last diameter on one side of the taught one at which all constraints hold; at the taught diameter all must hold.</summary>
    public static EnvelopeEnd Last(Plan plan, bool greatest)
    {
        var (holds, fails) = (plan.TaughtDiameterMetres, greatest ? Plan.Reach.To : Plan.Reach.From);
        var outermost = (Constraint: Constraint.Reach, Limit: fails);
        if (plan.StatedMetres is { } stated && (greatest ? stated.To <= fails : stated.From >= fails))
        {
            fails = greatest ? stated.To : stated.From;
            outermost = (Constraint.StatedRange, fails);
        }

        if (Broken(plan, fails) is not { } broken)
        {
            return new(fails, outermost.Constraint, null, outermost.Limit);
        }

        while (Math.Abs(fails - holds) > ResolutionMetres)
        {
            var middle = (holds + fails) / 2;
            if (Broken(plan, middle) is { } there)
            {
                (fails, broken) = (middle, there);
            }
            else
            {
                holds = middle;
            }
        }

        return new(holds, broken.Constraint, null, broken.Limit);
    }

    private static (Constraint, double?)? Range(Plan plan, double diameter)
    {
        if (plan.StatedMetres is { } stated && (diameter < stated.From || diameter > stated.To))
        {
            return (Constraint.StatedRange, diameter < stated.From ? stated.From : stated.To);
        }

        return diameter < Plan.Reach.From ? (Constraint.Reach, Plan.Reach.From)
            : diameter > Plan.Reach.To ? (Constraint.Reach, Plan.Reach.To)
            : null;
    }

    private static (Constraint, double?)? Seated(Plan plan, double radius)
    {
        // First without the ends of the faces, so that the end that is passed can be named.
        if (SeatSolver.TryClear(plan.Nest, radius, 0, out var seat) != SeatFault.None)
        {
            return (Constraint.NoSeat, null);
        }

        if (SeatSolver.TrySeat(plan.Nest, radius, out _) != SeatFault.None)
        {
            return (Constraint.FaceExtent, End(plan.Nest.First, seat.Centre) ?? End(plan.Nest.Second, seat.Centre));
        }

        if (seat.HeldRadians < plan.HeldRadians - Plan.Rounding)
        {
            return (Constraint.HeldAngle, plan.HeldRadians);
        }

        if (seat.Sensitivity > plan.Sensitivity + Plan.Rounding)
        {
            return (Constraint.Sensitivity, plan.Sensitivity);
        }

        return SeatSolver.TryClear(plan.Nest, radius, plan.StandOffMetres, out var clear) != SeatFault.None ? (Constraint.NoSeat, null)
            : (clear.Centre - plan.Taught.Centre).Length > plan.ShiftMetres + Plan.Rounding ? (Constraint.Shift, plan.ShiftMetres)
            : null;
    }

    /// <summary>The end of a face beyond which a contact is.</summary>
    private static double? End(in Locator locator, PlanVector centre)
    {
        var along = PlanVector.Dot(locator.Along, centre - locator.Point);
        return locator.Kind == LocatorKind.Pin ? null
            : along < locator.FromMetres ? locator.FromMetres
            : along > locator.ToMetres ? locator.ToMetres
            : null;
    }

    private static (Constraint, double?)? Payload(Plan plan, double diameter) =>
        plan.Density * Math.PI / 4 * diameter * diameter * plan.StockLengthMetres > plan.PayloadKilograms
            + Plan.Rounding ? (Constraint.Payload, plan.PayloadKilograms) : null;

    private static (Constraint, double?)? Stroke(Plan plan, double diameter)
    {
        if (plan.Gripper is not { } gripper)
        {
            return null;
        }

        var (from, to) = (gripper.StrokeMetres.From - Plan.Rounding, gripper.StrokeMetres.To + Plan.Rounding);
        var open = gripper.Open(diameter);
        return diameter < from || open < from ? (Constraint.Stroke, gripper.StrokeMetres.From)
            : diameter > to || open > to ? (Constraint.Stroke, gripper.StrokeMetres.To)
            : gripper.OpenToMetres <= diameter ? (Constraint.Stroke, gripper.OpenToMetres)
            : null;
    }
}
