using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Fitting;

/// <summary>The input of a fit of locators; it does not change while the values do.</summary>
internal sealed record LocatorTask(
    IReadOnlyList<MasterTouch> Touches,
    IReadOnlyList<LocatorParameter> Parameters,
    Func<IReadOnlyList<double>, Nest?> NestOf,
    Vector3 Up,
    bool HoldNormal)
{
    /// <summary>The step of the differences, as a part of a prior: far above rounding, and far too small for the curvature of a seat to show.</summary>
    private const double DifferenceOfPrior = 0.01;

    /// <summary>Where the seat centres were found in base.</summary>
    internal Vector3[] Found { get; } = [.. Touches.Select(t => t.BaseMetres)];

    /// <summary>With two touches the normal is held, as for any frame.</summary>
    internal bool Held { get; } = HoldNormal || Touches.Count == 2;

    internal FrameDesign Design => new(Held);

    /// <summary>The seat centres in the plan with these values; false, and which touch it is, when one has no seat.</summary>
    internal bool TrySeats(double[] values, out Vector3[] planMetres, out int touch)
    {
        planMetres = new Vector3[Touches.Count];
        touch = 0;
        if (NestOf(values) is not { } nest)
        {
            return false;
        }

        for (; touch < Touches.Count; touch++)
        {
            if (SeatSolver.TrySeat(nest, Touches[touch].DiameterMetres / 2, out var seat) != SeatFault.None)
            {
                return false;
            }

            planMetres[touch] = Touches[touch].CellMetres + new Vector3(seat.Centre.U, seat.Centre.V, 0);
        }

        return true;
    }

    /// <summary>How the seat centres move with each value, by central differences.</summary>
    internal bool TrySlopes(double[] values, out Vector3[][] slopes, out int touch)
    {
        slopes = new Vector3[values.Length][];
        touch = 0;
        for (var j = 0; j < values.Length; j++)
        {
            var (below, above) = ((double[])values.Clone(), (double[])values.Clone());
            below[j] -= DifferenceOfPrior * Parameters[j].PriorStandard;
            above[j] += DifferenceOfPrior * Parameters[j].PriorStandard;
            if (!TrySeats(below, out var before, out touch) || !TrySeats(above, out var after, out touch))
            {
                return false;
            }

            slopes[j] = [.. after.Select((p, i) => 1 / (above[j] - below[j]) * (p - before[i]))];
        }

        return true;
    }
}
