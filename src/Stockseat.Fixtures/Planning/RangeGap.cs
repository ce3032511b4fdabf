using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Seats;

namespace Stockseat.Fixtures.Planning;

/// <summary>
/// The smallest gap over a range of diameters. A gap can dip between two samples, so pieces of the range are halved until none can hold a smaller one:
/// over a piece [a, b] with gaps f(a), f(b) it is at least (f(a) + f(b) − L·(b − a))/2. The centre moves by S/2 a diameter and the stock, and a jaw on it, grow by 1/2;
/// both parties may, so L = S + 1, with S at a: the sensitivity of equal pins falls with the diameter, that of a vee does not change.
/// </summary>
internal static class RangeGap
{
    /// <summary>Found to this, in metres.</summary>
    private const double Tolerance = 1e-6;

    /// <summary>The smallest gap.</summary>
    /// <param name="plan">The plan; its stock has a seat over the whole range.</param>
    /// <param name="range">From and to, in metres.</param>
    /// <returns>Null when nothing can be met.</returns>
    public static SmallestGap? Find(Plan plan, (double From, double To) range)
    {
        if (At(plan, range.From) is not { } from || At(plan, range.To) is not { } to)
        {
            return null;
        }

        var least = from.Reading.Metres <= to.Reading.Metres ? from : to;
        var open = new Stack<(SmallestGap A, SmallestGap B)>([(from, to)]);
        while (open.TryPop(out var piece))
        {
            var (a, b) = piece;
            var width = b.DiameterMetres - a.DiameterMetres;
            var bound = (a.Reading.Metres + b.Reading.Metres - (Steepest(plan, a.DiameterMetres) * width)) / 2;
            if (width < Tolerance / 8 || bound > least.Reading.Metres - Tolerance || At(plan, (a.DiameterMetres + b.DiameterMetres) / 2) is not { } middle)
            {
                continue;
            }

            least = middle.Reading.Metres < least.Reading.Metres ? middle : least;
            open.Push((middle, b));
            open.Push((a, middle));
        }

        return least;
    }

    private static SmallestGap? At(Plan plan, double diameterMetres) =>
        Gaps.At(plan, diameterMetres) is [var least, ..] ? new(least, diameterMetres) : null;

    private static double Steepest(Plan plan, double diameterMetres) =>
        SeatSolver.TrySeat(plan.Nest, diameterMetres / 2, out var seat) == SeatFault.None ? seat.Sensitivity + 1 : double.PositiveInfinity;
}
