using Stockseat.Answers.Tests.Support;
using Stockseat.Audit.Tests.Published;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Seats;

namespace Stockseat.Audit.Tests.Explaining;

public sealed class PublishedSeatTests
{
    [Theory]
    [MemberData(nameof(SeatExamples.Rows), MemberType = typeof(SeatExamples))]
    public void Steps_lead_to_the_published_seat_and_to_the_solver_s(
        string nest, string taught, string diameter, double u, double v, double perU, double perV, double shiftU, double shiftV)
    {
        var file = Nests.Revision(nest, taught);
        var bench = Bench.Serving(file);
        var metres = double.Parse(diameter, System.Globalization.CultureInfo.InvariantCulture) / 1000;
        bench.Locate(metres);

        var working = Read.Last(bench);

        Near([u / 1000, v / 1000], working.Values("Seat at the diameter used", "C(R)"), 1e-12);
        Near([perU, perV], working.Values("Seat at the diameter used", "p"), 1e-9);
        Near([shiftU / 1000], working.Values("Shift in the plan", "du"), 1e-12);
        Near([shiftV / 1000], working.Values("Shift in the plan", "dv"), 1e-12);
        Solved(file.Reading.Revision!, metres, working);
    }

    /// <summary>The steps are not the solver's code, and agree with it except for the last bits.</summary>
    private static void Solved(Revision revision, double diameter, Audit.Explaining.Working working)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(revision.Nest, diameter / 2, out var seat));
        var scale = seat.Centre.Length;
        Near([seat.Centre.U, seat.Centre.V], working.Values("Seat at the diameter used", "C(R)"), 1e-15 * scale);
        Near([revision.TaughtCentre.U, revision.TaughtCentre.V], working.Values("Seat at the taught diameter", "C(R_t)"), 1e-15 * scale);
        Near([seat.Sensitivity], working.Values("Seat at the diameter used", "|p|"), 1e-14);
        Near([seat.HeldRadians * 180 / Math.PI], working.Values("Seat at the diameter used", "held"), 1e-12);
    }

    private static void Near(double[] expected, IReadOnlyList<double> actual, double tolerance)
    {
        Assert.Equal(expected.Length, actual.Count);
        Assert.All(expected.Zip(actual), pair => Assert.Equal(pair.First, pair.Second, tolerance));
    }
}
