using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Uncertainty;

/// <summary>
/// How a lobed contour moves the centre of a seat. The contour is R + a·cos(n(ψ − ψ₀)): n lobes of amplitude a, ψ the direction from the centre, counted from
/// +u towards +v. At contact i, in direction ψᵢ, the contour is a·cos(n(ψᵢ − ψ₀)) beyond R. So nᵢ·δ = a·cos(n(ψᵢ − ψ₀)) gives the movement δ of the centre:
/// exact for faces, first order in a for pins. Derived here. In a vee it gives the factors of ISO 4292:1985, as far as they are known from memory
/// (LobingTests).
/// </summary>
public static class Lobing
{
    /// <summary>The fewest lobes: an oval.</summary>
    public const int Fewest = 2;

    /// <summary>
    /// The most lobes that are looked at: our own choice, without a source. A contour with more lobes is taken to have amplitudes too small to matter here.
    /// </summary>
    public const int Most = 12;

    /// <summary>How far the centre moves.</summary>
    /// <param name="seat">The seat of the mean circle.</param>
    /// <param name="amplitudeMetres">The amplitude a, in metres.</param>
    /// <param name="lobes">The number n of lobes.</param>
    /// <param name="phaseRadians">The direction ψ₀ of a crest.</param>
    public static PlanVector Move(in Seat seat, double amplitudeMetres, int lobes, double phaseRadians) => seat.Solve(
        amplitudeMetres * Math.Cos(lobes * (Direction(seat.FirstNormal) - phaseRadians)),
        amplitudeMetres * Math.Cos(lobes * (Direction(seat.SecondNormal) - phaseRadians)));

    /// <summary>
    /// The largest movement per amplitude over all phases, along and across, each for its worst number of lobes. With an even number of lobes a two-point
    /// diameter is wrong too, by up to twice the amplitude, wherever it is taken: that is added in quadrature.
    /// </summary>
    /// <param name="seat">The seat of the mean circle.</param>
    public static (double Along, double Across) Worst(in Seat seat)
    {
        var (a, b) = (seat.Solve(1, 0), seat.Solve(0, 1));
        var gauge = seat.PerRadius;
        double along = 0, across = 0;

        // cos(nΔ), with Δ the angle between the contacts, by recurrence: no trigonometry on the path of an answer.
        var cos = PlanVector.Dot(seat.FirstNormal, seat.SecondNormal);
        var (before, now) = (1.0, cos);
        for (var n = Fewest; n <= Most; n++)
        {
            (before, now) = (now, (2 * cos * now) - before);
            var even = n % 2 == 0;
            along = Math.Max(along, Square(a.V, b.V, now) + (even ? gauge.V * gauge.V : 0));
            across = Math.Max(across, Square(a.U, b.U, now) + (even ? gauge.U * gauge.U : 0));
        }

        return (Math.Sqrt(along), Math.Sqrt(across));
    }

    /// <summary>|x + y·e^{iφ}|² with cos φ given.</summary>
    private static double Square(double x, double y, double cos) => (x * x) + (y * y) + (2 * x * y * cos);

    /// <summary>The direction from the centre to the contact: opposite to the normal.</summary>
    private static double Direction(PlanVector normal) => Math.Atan2(-normal.V, -normal.U);
}
