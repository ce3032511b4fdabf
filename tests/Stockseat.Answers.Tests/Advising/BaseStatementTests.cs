using Stockseat.Answers.Advising;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tests.Advising;

/// <summary>The expected values were computed by hand from the definition: u, v, w of a bed turned −20° and sloped 25°, v = √((R + r)² − a²).</summary>
public class BaseStatementTests
{
    private const double Metres = 1e-9;

    private static readonly BaseStatement Right = BaseStatement.Of(Racks.Right.Reading.Revision!);

    [Fact]
    public void Thicker_stock_moves_along_the_seat_axis()
    {
        // dv/dD at D = 63.5 mm: (R + r) / (2 v) with R + r = 38.1 mm and v = 32.4284 mm, as the difference over 1 mm.
        var step = Math.Sqrt(Square(0.032 + 0.00635) - 0.0004) - Math.Sqrt(Square(0.0315 + 0.00635) - 0.0004);
        var (sin20, cos20, sin25, cos25) = (Math.Sin(Radians(20)), Math.Cos(Radians(20)), Math.Sin(Radians(25)), Math.Cos(Radians(25)));
        Close(step / 0.001 * new Vector3(sin20 * cos25, cos20 * cos25, sin25), Right.PerDiameter, 1e-9);
    }

    [Fact]
    public void Far_nests_are_where_the_pitches_lead()
    {
        var (sin20, cos20, sin25, cos25) = (Math.Sin(Radians(20)), Math.Cos(Radians(20)), Math.Sin(Radians(25)), Math.Cos(Radians(25)));
        var (u, v) = (new Vector3(cos20, -sin20, 0), new Vector3(sin20 * cos25, cos20 * cos25, sin25));
        var origin = new Vector3(0.5, -0.3, 0.25);

        Assert.Equal([(0, 0), (4, 0), (0, 2), (4, 2)], Right.Nests.Select(n => (n.Column, n.Row)));
        Close(origin, Right.Nests[0].PositionMetres, Metres);
        Close(origin + (0.3 * u), Right.Nests[1].PositionMetres, Metres);
        Close(origin + (0.18 * v), Right.Nests[2].PositionMetres, Metres);
        Close(origin + (0.3 * u) + (0.18 * v), Right.Nests[3].PositionMetres, Metres);
        Close(u, Right.Columns!.Value.Direction, Metres);
        Close(v, Right.Rows!.Value.Direction, Metres);
        Assert.Equal((5, 3), (Right.Columns.Value.Count, Right.Rows.Value.Count));
        Assert.Equal(0.075, Right.Columns.Value.PitchMetres, Metres);
    }

    [Fact]
    public void Tool_and_seat_axis_are_stated_as_angles()
    {
        Assert.Equal(0, Right.ToolFromIntoPlanRadians, 1e-9);
        Assert.Equal(Radians(25), Right.SeatAxisRiseRadians, 1e-9);
        Assert.Equal(Radians(65), Right.NormalRiseRadians, 1e-9);
    }

    [Fact]
    public void A_flipped_seat_axis_shows()
    {
        var flipped = BaseStatement.Of(Racks.With((
            "\"frame\": { \"aboutZ\": \"-20 deg\", \"thenY\": \"0 deg\", \"thenX\": \"25 deg\" }",
            "\"frame\": { \"aboutZ\": \"160 deg\", \"thenY\": \"0 deg\", \"thenX\": \"-25 deg\" }")).Reading.Revision!);

        Close(-1 * Right.PerDiameter, flipped.PerDiameter, 1e-9);
        Assert.Equal(-Radians(25), flipped.SeatAxisRiseRadians, 1e-9);
    }

    private static double Square(double x) => x * x;

    private static double Radians(double degrees) => degrees * Math.PI / 180;

    private static void Close(Vector3 expected, Vector3 found, double tolerance) =>
        Assert.True((expected - found).Length < tolerance, $"{found}; {expected} was expected");
}
