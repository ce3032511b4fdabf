using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Tests.Published;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Seating.Tests.Uncertainty;

public class LobingTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// An indicator on the bisector above the stock sees the movement of the centre and the contour at the top: with an even number of lobes a crest is
    /// opposite a crest, with an odd number a crest is opposite a valley.
    /// </summary>
    [Theory]
    [MemberData(nameof(VeeLobing.Factors), MemberType = typeof(VeeLobing))]
    public void An_indicator_over_a_vee_swings_by_the_published_factor(int degrees, int lobes, double factor)
    {
        var seat = Vee(degrees);
        var swing = Enumerable.Range(0, 7200).Select(k => k * Math.PI / 3600)
            .Select(phase => Lobing.Move(seat, 1, lobes, phase).V + Math.Cos(lobes * ((Math.PI / 2) - phase))).ToArray();

        Assert.Equal(factor, (swing.Max() - swing.Min()) / 2, 0.006); // 2: from crest to valley of the radius
    }

    [Theory]
    [MemberData(nameof(VeeLobing.Movements), MemberType = typeof(VeeLobing))]
    public void A_lobed_contour_moves_the_centre_as_calculated_by_another_program(
        int degrees, double pin, double half, double radius, double amplitude, int lobes, double crestDegrees, double du, double dv, double exactU,
        double exactV)
    {
        var seat = degrees > 0 ? Vee(degrees, radius) : Seat(Nest.Pins(2 * half, 2 * pin), radius);

        var moved = Lobing.Move(seat, amplitude, lobes, -Math.PI / 2 + (crestDegrees * Degree));

        Assert.Equal(du, moved.U, 1e-12);
        Assert.Equal(dv, moved.V, 1e-12);
        Assert.Equal(exactU, moved.U, 0.02 * amplitude); // of second order in the amplitude
        Assert.Equal(exactV, moved.V, 0.05 * amplitude);
    }

    /// <summary>
    /// A consistency check and no more: <see cref="Lobing.Worst"/> against <see cref="Lobing.Move"/>, two functions of our own. That Move is right is shown by
    /// the tests above.
    /// </summary>
    [Theory]
    [InlineData(60)]
    [InlineData(90)]
    [InlineData(120)]
    public void The_worst_case_is_the_largest_over_lobes_and_phases(int degrees)
    {
        var seat = Vee(degrees);
        double Most(int n) => Enumerable.Range(0, 7200).Max(k => Math.Abs(Lobing.Move(seat, 1, n, k * Math.PI / 3600).V));
        var worst = Enumerable.Range(Lobing.Fewest, Lobing.Most - Lobing.Fewest + 1)
            .Max(n => Math.Sqrt(Math.Pow(Most(n), 2) + (n % 2 == 0 ? Math.Pow(seat.PerRadius.V, 2) : 0)));

        Assert.Equal(worst, Lobing.Worst(seat).Along, worst * 1e-5);
    }

    /// <summary>Three lobes in a 60° vee: the centre moves by twice the amplitude, and a two-point diameter shows nothing of it.</summary>
    [Fact]
    public void Three_lobes_move_a_sharp_vee_by_twice_their_amplitude() => Assert.Equal(-2, Lobing.Move(Vee(60), 1, 3, -Math.PI / 2).V, 1e-12);

    private static Seat Vee(int degrees, double radius = 20) => Seat(Nest.Vee(degrees * Degree), radius);

    private static Seat Seat(Nest nest, double radius)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(nest, radius, out var seat));
        return seat;
    }
}
