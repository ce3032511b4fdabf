using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The sections in the plan of the nest: its locators, the seats, the shift.</summary>
internal static class PlanSections
{
    public const string Locators = "Locators of the nest";
    public const string TaughtSeat = "Seat at the taught diameter";
    public const string OwnSeat = "Seat at the diameter used";
    public const string Cleared = "Centre with the stand-off";
    public const string Shift = "Shift in the plan";

    /// <summary>The locators of the nest.</summary>
    public static WorkingSection OfLocators(in Nest nest)
    {
        var steps = new Steps(Locators);
        steps.Say("Plan axes: u across the nest, v along the seat axis, away from the locators. Vectors in the plan are given as (u, v).");
        Locator(steps, nest.First, "1");
        Locator(steps, nest.Second, "2");
        return steps.Section;
    }

    /// <summary>The seat at a radius: always a section, and the seat where there is one.</summary>
    /// <param name="title">The section's title.</param>
    /// <param name="nest">The nest.</param>
    /// <param name="radius">The radius, in metres.</param>
    /// <param name="by">Its symbol.</param>
    /// <param name="seat">The seat; null when there is none.</param>
    public static WorkingSection OfSeat(string title, in Nest nest, double radius, string by, out Seat? seat)
    {
        var steps = new Steps(title);
        seat = CentreSteps.Add(steps, nest, radius, by) is { } centre ? ContactSteps.Add(steps, nest, centre, radius, by) : null;
        if (seat is not null && SeatSolver.TrySeat(nest, radius, out _) is var fault and not SeatFault.None)
        {
            steps.Say(
                fault == SeatFault.ContactOffFace ? "A contact is beyond the end of its face: there is no seat."
                    : "The seating force does not hold the stock there: there is no seat.");
            seat = null;
        }

        return steps.Section;
    }

    /// <summary>The centre that clears both locators by the stand-off; null when there is none.</summary>
    public static WorkingSection OfClear(in Nest nest, double radius, double standOff, out PlanVector? centre)
    {
        var steps = new Steps(Cleared);
        steps.Make("R + g", "from the gripped stock's centre to the locators", "R + g", Metre, radius + standOff);
        centre = CentreSteps.Add(steps, nest, radius + standOff, "R + g");
        if (centre is { } clear)
        {
            ContactSteps.Clearances(steps, nest, clear, radius);
        }

        return steps.Section;
    }

    /// <summary>The shift in the plan.</summary>
    public static WorkingSection OfShift(PlanVector clear, PlanVector taught, out PlanVector shift)
    {
        var steps = new Steps(Shift);
        shift = new(
            steps.Make("du", "the shift across the nest", "C(R + g).u - C(R_t).u", Metre, clear.U - taught.U),
            steps.Make("dv", "the shift along the seat axis", "C(R + g).v - C(R_t).v", Metre, clear.V - taught.V));
        steps.Make("|shift|", "its length", "sqrt(du^2 + dv^2)", Metre, shift.Length);
        return steps.Section;
    }

    private static void Locator(Steps steps, in Locator locator, string i)
    {
        if (locator.Kind == LocatorKind.Pin)
        {
            steps.Given($"P{i}", $"pin {i}: its centre (u, v)", Metre, locator.Point);
            steps.Given($"r{i}", $"pin {i}: its radius", Metre, locator.RadiusMetres);
            return;
        }

        steps.Given($"F{i}", $"face {i}: a point on it (u, v)", Metre, locator.Point);
        steps.Given(
            $"phi{i}", $"face {i}: the direction of its normal towards the stock, from +u towards +v", Degree,
            Degrees(Math.Atan2(locator.Normal.V, locator.Normal.U)));
        steps.Make($"n{i}", $"face {i}: its normal (u, v)", $"(cos(phi{i}), sin(phi{i}))", One, locator.Normal);
        if (double.IsFinite(locator.FromMetres))
        {
            steps.Given($"from{i}", $"face {i}: where it begins, along it from F{i}", Metre, locator.FromMetres);
        }
        else
        {
            steps.Say($"Face {i}: where it begins is not stated.");
        }

        if (double.IsFinite(locator.ToMetres))
        {
            steps.Given($"to{i}", $"face {i}: where it ends, along it from F{i}", Metre, locator.ToMetres);
        }
        else
        {
            steps.Say($"Face {i}: where it ends is not stated.");
        }
    }
}
