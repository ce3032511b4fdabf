using Stockseat.Seating.Locators;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Audit.Explaining;

/// <summary>
/// How the sensitivities of a component are computed, in the symbols of the section on what moves the centre: along uses the v components, across the u ones.
/// </summary>
internal static class SensitivityWords
{
    /// <summary>The formula.</summary>
    /// <param name="component">The component.</param>
    /// <param name="nest">The nest's locators.</param>
    /// <param name="sameNest">Whether it is the taught nest, so that the same locators act at both diameters.</param>
    /// <param name="sameGauge">Whether the same gauge measured the taught diameter.</param>
    public static string Of(Component component, in Nest nest, bool sameNest, bool sameGauge) => component switch
    {
        Component.Gauge => sameGauge ? "|p - p_t| / 2" : "|p| / 2",
        Component.Resolution or Component.Repeatability or Component.AskedDiameter => "|p| / 2",
        Component.TaughtDiameter => "|p_t| / 2",
        Component.Roundness => "sqrt of the largest over n = 2..12 of g1^2 + g2^2 + 2 g1 g2 cos(n beta), and p^2 more when n is even",
        Component.LocatorDiameter => $"sqrt({Sum(nest, LocatorKind.Pin, i => sameNest ? $"(g{i} - g{i}_t)^2" : $"g{i}^2 + g{i}_t^2")}) / 2",
        Component.LocatorPosition => $"sqrt({Positions(nest, sameNest)})",
        Component.LocatorAngle =>
            $"sqrt({Sum(nest, LocatorKind.Face, i => sameNest ? $"(arm{i} g{i} - arm{i}_t g{i}_t)^2" : $"(arm{i} g{i})^2 + (arm{i}_t g{i}_t)^2")})",
        Component.Seating => "sqrt(g1^2 + g2^2)",
        Component.Lean => "leanHeight in both directions",
        Component.FrameAngle => "along sqrt((off_plan.u + du)^2 + off_plan.w^2), across sqrt((off_plan.v + dv)^2 + off_plan.w^2)",
        _ => "1 in both directions",
    };

    private static string Positions(in Nest nest, bool sameNest)
    {
        var pins = Sum(nest, LocatorKind.Pin, i => sameNest ? $"(n{i}.u g{i} - n{i}_t.u g{i}_t)^2 + (n{i}.v g{i} - n{i}_t.v g{i}_t)^2" : $"g{i}^2 + g{i}_t^2");
        var faces = Sum(nest, LocatorKind.Face, i => sameNest ? $"(g{i} - g{i}_t)^2" : $"g{i}^2 + g{i}_t^2");
        return string.Join(" + ", new[] { pins, faces }.Where(s => s.Length > 0));
    }

    private static string Sum(Nest nest, LocatorKind kind, Func<string, string> term)
    {
        var parts = new List<string>();
        if (nest.First.Kind == kind)
        {
            parts.Add(term("1"));
        }

        if (nest.Second.Kind == kind)
        {
            parts.Add(term("2"));
        }

        return string.Join(" + ", parts);
    }
}
