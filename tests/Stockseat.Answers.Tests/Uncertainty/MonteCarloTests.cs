using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;

namespace Stockseat.Answers.Tests.Uncertainty;

/// <summary>
/// The propagation against a Monte Carlo of the whole model (the method of JCGM 101:2008; clauses not read).
/// <para>Shared with the code under test: the closed form of the seat (<see cref="SeatSolver"/>), the locators and the layout's offsets, the reading of the
/// revision, which inputs a diameter has (<see cref="Certainty.Diameter"/>), and, where a roundness is stated, the seat's linear system by which the worst
/// number of lobes is chosen.</para>
/// <para>Not shared: derivatives, the sums of squares, what is common to D and the taught diameter, and how the frame's angle acts over the distance: the draws
/// move, turn and resize the locators and seat the stock again each time.</para>
/// <para>The list of inputs and where each one acts were thought out once, for both: a wrong thought there would not show here. The seat itself is tested
/// against values from elsewhere in the tests of Seating.</para>
/// </summary>
public class MonteCarloTests
{
    /// <summary>The standard deviation of 200,000 draws is itself known to 0.16 %; the long form makes 10⁶ draws.</summary>
    private static readonly int Count = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1" ? 1_000_000 : 200_000;

    private static readonly DiameterFrom Bench2 = new() { Gauge = "bench-2", Limits = new() { LimitsOfError = 3e-5, Resolution = 1e-5, Repeatability = 2e-5 },
        Readings = 3 };

    public static TheoryData<string, double, int, int, bool> Cases()
    {
        var cases = new TheoryData<string, double, int, int, bool>();
        foreach (var (file, diameters, column, row) in new[]
        {
            ("pinbed-1/r0003.json", new[] { 0.0625, 0.0924, 0.0995 }, 5, 3),
            ("veerack-2/r0002.json", [0.0420, 0.06985, 0.0945], 4, 1),
            ("rollers-3/r0002.json", [0.0620, 0.0900, 0.1190], 2, 0),
        })
        {
            foreach (var diameter in diameters)
            {
                cases.Add(file, diameter, 0, 0, true);
                cases.Add(file, diameter, column, row, false);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Twice_the_draws_standard_deviation_is_U_within_two_percent(string file, double diameter, int column, int row, bool gauged)
    {
        var revision = Revisions.Demo(file).Reading.Revision!;
        var from = gauged ? Bench2 : null;
        var inputs = Certainty.Diameter(revision, from)!.Value;
        var (lobesAlong, lobesAcross) = WorstLobes(revision.Nest, diameter);

        var budget = NestBudget.Of(revision, diameter, 0, from, column, row)[0].Budget;

        var draws = new[] { lobesAlong, lobesAcross }.Distinct().AsParallel().ToDictionary(
            n => n, n => new Draws(revision, diameter, inputs, column, row, n, 1000 + n).Deviations(Count));
        Assert.Equal(1, 2 * draws[lobesAlong].Along / budget.Expanded.Along, 0.02);
        Assert.Equal(1, 2 * draws[lobesAcross].Across / budget.Expanded.Across, 0.02);
    }

    /// <summary>The worst number of lobes for each direction, found by trying phases.</summary>
    private static (int Along, int Across) WorstLobes(Stockseat.Seating.Locators.Nest nest, double diameter)
    {
        SeatSolver.TrySeat(nest, diameter / 2, out var seat);
        double Move(int lobes, Func<PlanVector, double> of) => Enumerable.Range(0, 3600).Max(k =>
        {
            var phase = k * Math.PI / 1800;
            var (a, b) = (Math.Cos(lobes * (Math.Atan2(-seat.FirstNormal.V, -seat.FirstNormal.U) - phase)),
                Math.Cos(lobes * (Math.Atan2(-seat.SecondNormal.V, -seat.SecondNormal.U) - phase)));
            return Math.Abs(of(seat.Solve(a, b)));
        });
        double Both(int lobes, Func<PlanVector, double> of) => Math.Pow(Move(lobes, of), 2) + (lobes % 2 == 0 ? Math.Pow(of(seat.PerRadius), 2) : 0);
        return (Enumerable.Range(2, 11).MaxBy(n => Both(n, c => c.V)), Enumerable.Range(2, 11).MaxBy(n => Both(n, c => c.U)));
    }
}
