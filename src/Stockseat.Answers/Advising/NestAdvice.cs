using System.Text.Json;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What looks wrong about a nest and what is around it.</summary>
internal static class NestAdvice
{
    /// <summary>A difference that matters when the revision does not say how sure it is. Our own choice.</summary>
    private const double UnstatedMetres = 0.0001;

    /// <summary>A pin thinner than this share of the taught stock is unusual: its radius may have been given as its diameter. Our own choice.</summary>
    private const double Thin = 1.0 / 9;

    public static IEnumerable<Finding> Of(Revision revision, LengthUnit unit) =>
        [.. Spacing(revision, unit), .. Thickness(revision, unit), .. Around(revision, unit)];

    /// <summary>A spacing that was measured between the pins' edges, or over the pins, seats stock as well and shifts it differently.</summary>
    private static IEnumerable<Finding> Spacing(Revision revision, LengthUnit unit)
    {
        using var content = JsonDocument.Parse(revision.Content);
        if (!content.RootElement.GetProperty("nest").TryGetProperty("pins", out var pins) || pins.TryGetProperty("between", out _))
        {
            yield break;
        }

        var (spacing, pin) = (pins.GetProperty("spacing").GetDouble(), pins.GetProperty("diameter").GetDouble());
        foreach (var (centres, how) in new[] { (spacing + pin, "between the edges of the pins"), (spacing - pin, "over the pins") })
        {
            if (Difference(revision, centres, pin) is { } difference && difference > (revision.Limits.UncertaintyMetres ?? UnstatedMetres))
            {
                yield return Finding.Advice("nest.pins.spacing",
                    $"the spacing is between the centres of the pins. If {unit.Text(spacing)} was measured {how}, it is "
                    + $"{unit.Text(centres)}, which holds the stock as well, and a shift would be up to {unit.Text(difference)} wrong. Measure again, then "
                    + $"state \"between\": \"centres\" beside the spacing");
            }
        }
    }

    /// <summary>Stock rests against a pin of half its diameter as well, a little lower.</summary>
    private static IEnumerable<Finding> Thickness(Revision revision, LengthUnit unit)
    {
        var (nest, taught) = (revision.Nest, revision.TaughtDiameterMetres);
        var thin = new[] { nest.First, nest.Second }.Where(l => l.Kind == LocatorKind.Pin).Select(l => 2 * l.RadiusMetres).Where(d => d < Thin * taught);
        foreach (var diameter in thin.Distinct())
        {
            yield return Finding.Advice("nest", $"a pin of {unit.Text(diameter)} is thin for stock of {unit.Text(taught)}. Check whether that is its radius: "
                + $"its diameter would be {unit.Text(2 * diameter)}. A ninth of the stock's diameter or more is usual");
        }
    }

    /// <summary>By how much shifts would differ at an end of the stated range; null when the other spacing does not hold the stock.</summary>
    private static double? Difference(Revision revision, double centres, double pin)
    {
        if (revision.Limits.DiameterMetres is not { } range || centres <= pin)
        {
            return null;
        }

        var other = Nest.Pins(centres, pin);
        double? Shift(in Nest nest, double diameter) =>
            SeatSolver.TrySeat(nest, diameter / 2, out var seat) == SeatFault.None
            && SeatSolver.TrySeat(nest, revision.TaughtDiameterMetres / 2, out var taught) == SeatFault.None ? seat.Centre.V - taught.Centre.V : null;
        return Shift(other, range.From) - Shift(revision.Nest, range.From) is { } least && Shift(other, range.To) - Shift(revision.Nest, range.To) is { } most
            ? Math.Max(Math.Abs(least), Math.Abs(most))
            : null;
    }

    /// <summary>Neighbours that are near, and no gripper or no gap to judge them by.</summary>
    private static IEnumerable<Finding> Around(Revision revision, LengthUnit unit)
    {
        var largest = revision.Limits.DiameterMetres?.To ?? revision.TaughtDiameterMetres;
        var rows = new[] { revision.Layout.First, revision.Layout.Second }.Where(r => r is { Count: > 1, Direction: not 'w' }).Select(r => r!.Value);
        if (rows.Select(r => Math.Abs(r.PitchMetres)).DefaultIfEmpty(double.PositiveInfinity).Min() is var pitch && pitch > 2 * largest)
        {
            yield break;
        }

        var unstated = new[] { (revision.Around.Gripper is null, "gripper"), (revision.Limits.GapMetres is null, "limits.gap") }.Where(u => u.Item1).ToArray();
        if (unstated.Length > 0)
        {
            yield return Finding.Advice(unstated[0].Item2,
                $"the neighbouring nests are {unit.Text(pitch)} away, and {string.Join(" and ", unstated.Select(u => u.Item2))} "
                + $"{(unstated.Length > 1 ? "are" : "is")} not stated, so nothing judges how near the jaws come to neighbours and locators. State "
                + $"{(unstated.Length > 1 ? "them" : "it")}");
        }
    }
}
