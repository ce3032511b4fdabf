using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>
/// The centre of a circle at a given distance from both locators, step by step, by the closed form for the pair of locators, as a person computes it. This is
/// deliberately not the solver's code: tests compare the two.
/// </summary>
internal static class CentreSteps
{
    /// <summary>Normals that are this close to mirror images of each other make a symmetric vee.</summary>
    private const double Mirrored = 1e-12;

    /// <summary>Adds the steps.</summary>
    /// <param name="steps">Where to.</param>
    /// <param name="nest">The nest.</param>
    /// <param name="reach">From the centre to the locators' surfaces, in metres: R, or R + g.</param>
    /// <param name="by">Its symbol.</param>
    /// <returns>The centre; null when there is none.</returns>
    public static PlanVector? Add(Steps steps, in Nest nest, double reach, string by)
    {
        var (a, b) = (nest.First, nest.Second);
        return (a.Kind, b.Kind) switch
        {
            (LocatorKind.Pin, LocatorKind.Pin) => IsLevel(a, b) ? LevelPins(steps, a, b, reach, by) : Pins(steps, a, b, reach, by),
            (LocatorKind.Face, LocatorKind.Face) => IsVee(a, b) ? Vee(steps, a, b, reach, by) : Faces(steps, a, b, reach, by),
            (LocatorKind.Pin, _) => PinAndFace(steps, (a, "1"), (b, "2"), reach, by),
            _ => PinAndFace(steps, (b, "2"), (a, "1"), reach, by),
        };
    }

    private static bool IsLevel(in Locator a, in Locator b) => a.RadiusMetres == b.RadiusMetres && a.Point.V == b.Point.V;

    private static bool IsVee(in Locator a, in Locator b) =>
        Math.Abs(a.Normal.U + b.Normal.U) < Mirrored && Math.Abs(a.Normal.V - b.Normal.V) < Mirrored && a.Normal.V > Mirrored
        && Math.Abs(a.Normal.U) > Mirrored;

    private static PlanVector? LevelPins(Steps steps, in Locator a, in Locator b, double reach, string by)
    {
        steps.Say("Two equal pins at one height: the centre is midway between them, and its height is one side of a right triangle.");
        var half = steps.Make("a", "half the distance between the pins' centres", "|P2.u - P1.u| / 2", Metre, Math.Abs(b.Point.U - a.Point.U) / 2);
        var middle = steps.Make("m", "midway between the pins, across", "(P1.u + P2.u) / 2", Metre, (a.Point.U + b.Point.U) / 2);
        var rho = steps.Make("rho", "from a pin's centre to the stock's", $"{by} + r1", Metre, reach + a.RadiusMetres);
        if (!(rho > half))
        {
            steps.Compare("rho", rho, "a", half, Metre, most: false);
            steps.Say("The stock drops between the pins: there is no seat.");
            return null;
        }

        var h = steps.Make(
            "h", "how far the centre is above the pins' centres", "sqrt(rho^2 - a^2) = sqrt((rho - a) (rho + a))", Metre,
            Math.Sqrt((rho - half) * (rho + half)));
        return steps.Make($"C({by})", "the centre (u, v)", "(m, P1.v + h)", Metre, new PlanVector(middle, a.Point.V + h));
    }

    private static PlanVector? Pins(Steps steps, in Locator a, in Locator b, double reach, string by)
    {
        steps.Say("Two pins: the point where two circles around their centres meet, on the seat axis' side.");
        var d = steps.Make("d", "from pin 1 to pin 2 (u, v)", "P2 - P1", Metre, b.Point - a.Point);
        var length = steps.Make("L", "its length", "sqrt(d.u^2 + d.v^2)", Metre, d.Length);
        var e = steps.Make("e", "its direction (u, v)", "d / L", One, 1 / length * d);
        var rho1 = steps.Make("rho1", "from pin 1's centre to the stock's", $"{by} + r1", Metre, reach + a.RadiusMetres);
        var rho2 = steps.Make("rho2", "from pin 2's centre to the stock's", $"{by} + r2", Metre, reach + b.RadiusMetres);
        var x = steps.Make(
            "x", "how far along e from pin 1 the centre is", "L / 2 + (r1 - r2) (rho1 + rho2) / (2 L)", Metre,
            length / 2 + (a.RadiusMetres - b.RadiusMetres) * (rho1 + rho2) / (2 * length));
        return Beside(steps, "P1", a.Point, e, ("x", x), ("rho1", rho1), "h", by);
    }

    private static PlanVector? PinAndFace(Steps steps, (Locator It, string I) pin, (Locator It, string I) face, double reach, string by)
    {
        steps.Say("A pin and a face: the point where a circle around the pin's centre meets a line beside the face, on the seat axis' side.");
        var n = face.It.Normal;
        var rho = steps.Make("rho", "from the pin's centre to the stock's", $"{by} + r{pin.I}", Metre, reach + pin.It.RadiusMetres);
        var q = steps.Make(
            "q", "how far from the pin's centre that line is, along the face's normal",
            $"n{face.I}.u (F{face.I}.u - P{pin.I}.u) + n{face.I}.v (F{face.I}.v - P{pin.I}.v) + {by}", Metre,
            PlanVector.Dot(n, face.It.Point - pin.It.Point) + reach);
        return Beside(steps, $"P{pin.I}", pin.It.Point, n, ("q", q), ("rho", rho), "s", by, $"n{face.I}");
    }

    /// <summary>The point at distance rho from a pin's centre: a given part along e, the rest square to e.</summary>
    private static PlanVector? Beside(
        Steps steps, string from, PlanVector at, PlanVector e, (string Symbol, double Value) along, (string Symbol, double Value) rho, string rest, string by,
        string direction = "e")
    {
        if (!(Math.Abs(along.Value) < rho.Value))
        {
            var size = steps.Make($"|{along.Symbol}|", $"the size of {along.Symbol}", $"|{along.Symbol}|", Metre, Math.Abs(along.Value));
            steps.Compare(rho.Symbol, rho.Value, $"|{along.Symbol}|", size, Metre, most: false);
            steps.Say("No circle of this size touches both locators: there is no seat.");
            return null;
        }

        var side = e.U < 0 ? -1 : 1; // e turned by +90 deg has e.u along v
        var t = steps.Make(
            "t", $"{direction} turned by {(side < 0 ? "-" : "+")}90 deg, towards the seat axis (u, v)",
            side < 0 ? $"({direction}.v, -{direction}.u)" : $"(-{direction}.v, {direction}.u)", One, side * e.Turned);
        var h = steps.Make(
            rest, $"how far along t the centre is",
            $"sqrt({rho.Symbol}^2 - {along.Symbol}^2) = sqrt(({rho.Symbol} - {along.Symbol}) ({rho.Symbol} + {along.Symbol}))", Metre,
            Math.Sqrt((rho.Value - along.Value) * (rho.Value + along.Value)));
        return steps.Make($"C({by})", "the centre (u, v)", $"{from} + {along.Symbol} {direction} + {rest} t", Metre, at + along.Value * e + h * t);
    }

    private static PlanVector? Vee(Steps steps, in Locator a, in Locator b, double reach, string by)
    {
        steps.Say("A symmetric vee: the centre is straight above its apex.");
        var k1 = steps.Make(
            "k1", "how far face 1 is from the plan's origin, along its normal", "n1.u F1.u + n1.v F1.v", Metre, PlanVector.Dot(a.Normal, a.Point));
        var k2 = steps.Make(
            "k2", "how far face 2 is from the plan's origin, along its normal", "n2.u F2.u + n2.v F2.v", Metre, PlanVector.Dot(b.Normal, b.Point));
        var apex = steps.Make(
            "A", "the apex (u, v)", "((k1 - k2) / (2 n1.u), (k1 + k2) / (2 n1.v))", Metre,
            new PlanVector((k1 - k2) / (2 * a.Normal.U), (k1 + k2) / (2 * a.Normal.V)));
        steps.Make("alpha", "the vee's half-angle", "phi1, or 180 - phi1 when that is smaller", Degree, Degrees(Math.Atan2(a.Normal.V, Math.Abs(a.Normal.U))));
        var h = steps.Make(
            "h", "how far the centre is above the apex", $"{(by.Contains(' ', StringComparison.Ordinal) ? $"({by})" : by)} / sin(alpha)", Metre,
            reach / a.Normal.V);
        return steps.Make($"C({by})", "the centre (u, v)", "(A.u, A.v + h)", Metre, new PlanVector(apex.U, apex.V + h));
    }

    private static PlanVector? Faces(Steps steps, in Locator a, in Locator b, double reach, string by)
    {
        steps.Say("Two faces: ni . C = ki for each of them, two equations with two unknowns.");
        var (n1, n2) = (a.Normal, b.Normal);
        var k1 = steps.Make("k1", "face 1's right side", $"n1.u F1.u + n1.v F1.v + {by}", Metre, PlanVector.Dot(n1, a.Point) + reach);
        var k2 = steps.Make("k2", "face 2's right side", $"n2.u F2.u + n2.v F2.v + {by}", Metre, PlanVector.Dot(n2, b.Point) + reach);
        var det = steps.Make("D12", "the determinant", "n1.u n2.v - n1.v n2.u", One, PlanVector.Cross(n1, n2));
        if (!(Math.Abs(det) > 1e-12))
        {
            steps.Say("The faces are parallel: there is no seat.");
            return null;
        }

        return steps.Make(
            $"C({by})", "the centre (u, v)", "((k1 n2.v - k2 n1.v) / D12, (k2 n1.u - k1 n2.u) / D12)", Metre,
            new PlanVector((k1 * n2.V - k2 * n1.V) / det, (k2 * n1.U - k1 * n2.U) / det));
    }
}
