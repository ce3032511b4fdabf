using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Locate;

public sealed class LocateTests
{
    private const double In = 0.0254;
    private static Bench Bed => Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void A_shift_worked_out_by_hand_comes_out_to_the_last_decimal()
    {
        // By hand: √(52.5² − 30²) − √(46² − 30²) = 8.2130283 mm along the seat axis (−0.576, 0.768, 0.28), from (412.3, −205, 118) mm.
        var answer = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json")).Locate(0.0924);

        Assert.Equal(
            ("0.092400", "0.407569", "-0.198692", "0.120300", "-0.004731", "0.006308", "0.002300"),
            (N(answer, "diameter"), N(answer, "x"), N(answer, "y"), N(answer, "z"), N(answer, "bx"), N(answer, "by"), N(answer, "bz")));
        Assert.Equal(("pinbed-1", 3, "pick", 0.0924, true), (answer.Fixture, answer.Revision, answer.Purpose, answer.Diameter, answer.First));
        Assert.Equal([0, 0], answer.Nest);
        Assert.Equal([0.134164079, -0.939148551, -0.313049517, 0.044721360], answer.Orientation.Select(q => Math.Round(q, 9)));
        Assert.Equal((null, null, null), (answer.Measurement, answer.Age, answer.Lot));
    }

    [Fact]
    public void The_shift_is_also_given_in_the_origin_s_own_axes()
    {
        // The tool points into the bed with its y down the slope: all of the shift runs against y.
        var answer = Bed.Locate(0.0924);

        Assert.Equal(("0.000000", "-0.008213", "0.000000"), (N(answer, "ox"), N(answer, "oy"), N(answer, "oz")));
    }

    [Fact]
    public void The_answer_names_the_client_that_asked()
    {
        var answer = Bed.Locate(0.0924);

        Assert.Equal(("bench", "demo", "127.0.0.1:4000", "17", "r-1"), (answer.Client, answer.Cell, answer.Address, answer.Tag, answer.Request));
    }

    [Theory]
    [InlineData(Purpose.Pick, "pick", 0.0003)]
    [InlineData(Purpose.Place, "place", 0.0005)]
    public void The_stand_off_depends_on_the_purpose(Purpose purpose, string name, double standOff)
    {
        var answer = Bed.Locate(0.0924, purpose: purpose);

        // Two equal pins at 30 mm: v = sqrt((R + r)^2 - a^2).
        static double V(double reach) => Math.Sqrt(reach * reach - 0.03 * 0.03);
        var along = V(0.0462 + standOff + 0.006) - V(0.046);
        Near([-0.576 * along, 0.768 * along, 0.28 * along], answer.ShiftBase, 1e-12);
        Near([0, -along, 0], answer.ShiftOrigin, 1e-12);
        Assert.Equal((name, standOff), (answer.Purpose, answer.StandOff));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(5, 0)]
    [InlineData(2, 1)]
    [InlineData(5, 3)]
    public void Another_nest_lies_its_pitches_away_and_has_the_same_shift(int column, int row)
    {
        var (origin, other) = (Bed.Locate(0.0924), Bed.Locate(0.0924, column: column, row: row));

        // u = (0.8, 0.6, 0), v = (-0.576, 0.768, 0.28).
        var (u, v) = (column * 0.125, row * 0.130);
        Near(
            [origin.Position[0] + 0.8 * u - 0.576 * v, origin.Position[1] + 0.6 * u + 0.768 * v, origin.Position[2] + 0.28 * v], other.Position, 1e-12);
        Assert.Equal(origin.ShiftBase, other.ShiftBase);
        Assert.Equal([column, row], other.Nest);
    }

    [Fact]
    public void A_turned_rack_of_vees_moves_along_its_own_axes()
    {
        var answer = Bench.Serving(Revisions.Demo("veerack-2/r0002.json")).Locate(3.25 * In, "veerack-2", column: 3, row: 1);

        // A 90 degree vee: v = R / sin 45. The rack is turned by 30 degrees: u = (cos, sin), v = (-sin, cos).
        var (c, s) = (Math.Sqrt(3) / 2, 0.5);
        var shift = (1.625 + 0.010 - 1.375) * Math.Sqrt(2) * In;
        var (u, v) = (3 * 4.5 * In, 6 * In + shift);
        Assert.Equal(0.655 + u * c - v * s, answer.Position[0], 1e-9);
        Assert.Equal(0.180 + u * s + v * c, answer.Position[1], 1e-9);
        Assert.Equal(0.240, answer.Position[2], 1e-12);
        Assert.Equal(-shift * s, answer.ShiftBase[0], 1e-9);
        Assert.Equal(shift * c, answer.ShiftBase[1], 1e-9);
        Assert.Equal(0, answer.ShiftOrigin[0], 1e-9);
        Assert.Equal(-shift, answer.ShiftOrigin[1], 1e-9);
        Assert.Equal(0, answer.ShiftOrigin[2], 1e-9);
    }

    [Fact]
    public void A_bar_on_rollers_rises_and_its_nests_lie_along_the_bar()
    {
        var answer = Bench.Serving(Revisions.Demo("rollers-3/r0001.json")).Locate(0.1, "rollers-3", column: 2);

        Assert.Equal(-0.310 + 2 * 0.450, answer.Position[0], 1e-9);
        Assert.Equal(0.540, answer.Position[1], 1e-9);
        Assert.Equal(0.0955 + 0.060 - Math.Sqrt(0.065 * 0.065 - 0.045 * 0.045), answer.Position[2], 1e-9);
    }

    [Fact]
    public void An_unknown_fixture_is_refused() => Assert.Null(Bed.Refused(Reason.FixtureUnknown, 0.08, "pinbed-9").Revision);

    [Fact]
    public void A_fixture_whose_folder_is_gone_is_withdrawn()
    {
        var bench = Bench.Serving(Revisions.Good());
        bench.ReadFolders();

        Assert.Equal(1, bench.Refused(Reason.FixtureWithdrawn, 0.08).Revision);
    }

    [Fact]
    public void A_fixture_without_a_revision_in_force_names_the_one_that_waits()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1), Revisions.Good(4)));

        var text = bench.Refused(Reason.CalibrationUnusable, 0.08).Text;

        Assert.Contains("revision 1, 4 waits", text, StringComparison.Ordinal);
        Assert.Contains("stockseat fixture adopt pinbed-1 4 ", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fixture_with_broken_files_only_is_unusable()
    {
        var bench = Bench.Serving(Revisions.Broken(1));

        Assert.Contains("none of its files is valid", bench.Refused(Reason.CalibrationUnusable, 0.08).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_file_of_the_revision_in_force_is_refused_until_it_is_restored()
    {
        var file = Revisions.Good();
        var bench = Bench.Serving(file);
        bench.ReadFolders(Revisions.Folder(Revisions.Good(limits: """{ "shift": "40 mm" }""")));

        bench.Refused(Reason.RevisionChanged, 0.08);

        bench.ReadFolders(Revisions.Folder(file));
        bench.Locate(0.08);
    }

    [Fact]
    public void A_broken_file_of_the_revision_in_force_does_not_take_it_out_of_force()
    {
        var bench = Bench.Serving(Revisions.Good());
        bench.ReadFolders(Revisions.Folder(Revisions.Broken(1), Revisions.Broken(2)));

        Assert.Equal(1, bench.Locate(0.08).Revision);
    }

    [Theory]
    [InlineData(6, 0)]
    [InlineData(0, 4)]
    [InlineData(-1, 0)]
    [InlineData(0, -1)]
    public void A_nest_outside_the_layout_is_unknown(int column, int row)
    {
        var body = Bed.Refused(Reason.NestUnknown, 0.08, column: column, row: row);

        Assert.Equal(("6", "4"), (body.Limits!["columns"], body.Limits["rows"]));
        Assert.Equal([column, row], body.Nest!);
        Assert.Equal(("pick", 0.08, 3), (body.Purpose, body.Diameter, body.Revision));
    }

    [Fact]
    public void A_place_needs_a_diameter_even_with_a_measurement()
    {
        var bench = Bench.Serving(Revisions.Good());
        Assert.IsType<MeasurementBody>(bench.Measure(0.08));

        bench.Refused(Reason.DiameterMissing, purpose: Purpose.Place);
    }

    [Fact]
    public void A_place_of_raw_stock_uses_the_measurement()
    {
        var bench = Bench.Serving(Revisions.Good(extra: "\"returnsRawStock\": true,"));
        bench.Measure(0.0812);

        Assert.Equal((0.0812, "place"), (bench.Locate(purpose: Purpose.Place).Diameter, bench.Locate(purpose: Purpose.Place).Purpose));
    }

    private static void Near(double[] expected, double[] actual, double tolerance)
    {
        Assert.Equal(expected.Length, actual.Length);
        Assert.All(expected.Zip(actual), pair => Assert.Equal(pair.First, pair.Second, tolerance));
    }

    private static string N(AnswerBody answer, string name)
    {
        Assert.True(answer.TryNumber(name, out var value));
        return FixedPoint.Text(value, answer.Decimals);
    }
}
