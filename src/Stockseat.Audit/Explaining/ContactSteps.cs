using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>What follows from a seat's centre: the contacts, whether the stock is held there, and how the centre moves with the radius.</summary>
internal static class ContactSteps
{
    /// <summary>Adds the steps.</summary>
    /// <param name="steps">Where to.</param>
    /// <param name="nest">The nest.</param>
    /// <param name="centre">The centre.</param>
    /// <param name="radius">The stock's radius, in metres.</param>
    /// <param name="by">Its symbol.</param>
    /// <returns>The seat.</returns>
    public static Seat Add(Steps steps, in Nest nest, PlanVector centre, double radius, string by)
    {
        var n1 = Normal(steps, nest.First, "1", centre, radius, by);
        var n2 = Normal(steps, nest.Second, "2", centre, radius, by);
        Contact(steps, nest.First, "1", n1, centre, radius, by);
        Contact(steps, nest.Second, "2", n2, centre, radius, by);
        var det = steps.Make("det", "the determinant of both normals", "n1.u n2.v - n1.v n2.u", One, PlanVector.Cross(n1, n2));
        steps.Make("load1", "the load on contact 1 per unit of the seating force: above 0 when the stock is held", "-n2.u / det", One, -n2.U / det);
        steps.Make("load2", "the load on contact 2", "n1.u / det", One, n1.U / det);
        var theta1 = steps.Make("theta1", "from the seat axis to n1", "arctan(|n1.u| / n1.v)", Degree, Degrees(Math.Atan2(Math.Abs(n1.U), n1.V)));
        var theta2 = steps.Make("theta2", "from the seat axis to n2", "arctan(|n2.u| / n2.v)", Degree, Degrees(Math.Atan2(Math.Abs(n2.U), n2.V)));
        var held = steps.Make("held", "the held angle", "the smaller of theta1 and theta2", Degree, Math.Min(theta1, theta2));
        var p = steps.Make(
            "p", "how the centre moves with the radius, dC/dR (u, v)", "((n2.v - n1.v) / det, (n1.u - n2.u) / det)", One,
            new PlanVector((n2.V - n1.V) / det, (n1.U - n2.U) / det));
        steps.Make("|p|", "the sensitivity |dC/dR|", "sqrt(p.u^2 + p.v^2)", One, p.Length);
        return new(centre, n1, n2, p, held * Math.PI / 180);
    }

    /// <summary>How far the stock, with its centre at the stand-off position, is from both locators.</summary>
    public static void Clearances(Steps steps, in Nest nest, PlanVector centre, double radius)
    {
        Clearance(steps, nest.First, "1", centre, radius);
        Clearance(steps, nest.Second, "2", centre, radius);
    }

    private static PlanVector Normal(Steps steps, in Locator locator, string i, PlanVector centre, double radius, string by) => locator.Kind == LocatorKind.Face
        ? steps.Given($"n{i}", $"the normal of face {i}, as above (u, v)", One, locator.Normal)
        : steps.Make(
            $"n{i}", $"the normal at contact {i}: from pin {i}'s centre towards the stock's (u, v)", $"(C({by}) - P{i}) / ({by} + r{i})", One,
            1 / (radius + locator.RadiusMetres) * (centre - locator.Point));

    private static void Contact(Steps steps, in Locator locator, string i, PlanVector n, PlanVector centre, double radius, string by)
    {
        var contact = steps.Make($"T{i}", $"the point of contact {i} (u, v)", $"C({by}) - {by} n{i}", Metre, centre - radius * n);
        if (locator.Kind == LocatorKind.Pin || (double.IsInfinity(locator.FromMetres) && double.IsInfinity(locator.ToMetres)))
        {
            return;
        }

        var along = locator.Along;
        var t = steps.Make($"t{i}", $"along face {i}, as its extent grows (u, v)", along == n.Turned ? $"(-n{i}.v, n{i}.u)" : $"(n{i}.v, -n{i}.u)", One, along);
        var at = steps.Make(
            $"s{i}", $"how far along face {i} the contact is", $"t{i}.u (T{i}.u - F{i}.u) + t{i}.v (T{i}.v - F{i}.v)", Metre,
            PlanVector.Dot(t, contact - locator.Point));
        if (double.IsFinite(locator.FromMetres))
        {
            steps.Compare($"s{i}", at, $"from{i}", locator.FromMetres, Metre, most: false);
        }

        if (double.IsFinite(locator.ToMetres))
        {
            steps.Compare($"s{i}", at, $"to{i}", locator.ToMetres, Metre);
        }
    }

    private static void Clearance(Steps steps, in Locator locator, string i, PlanVector centre, double radius)
    {
        var (formula, gap) = locator.Kind == LocatorKind.Pin
            ? ($"|C(R + g) - P{i}| - r{i} - R", (centre - locator.Point).Length - locator.RadiusMetres - radius)
            : ($"n{i} . (C(R + g) - F{i}) - R", PlanVector.Dot(locator.Normal, centre - locator.Point) - radius);
        steps.Make($"gap{i}", $"how far the stock then is from {(locator.Kind == LocatorKind.Pin ? "pin" : "face")} {i}: this equals g", formula, Metre, gap);
    }
}
