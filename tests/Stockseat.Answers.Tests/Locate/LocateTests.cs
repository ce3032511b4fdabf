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
    public void The_design_s_example_comes_out_to_the_last_decimal()
    {
        // DESIGN.md 5.2: diameter 92.40 mm.
        var answer = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json")).Locate(0.0924);

        Assert.Equal(
            ("0.092400", "0.412300", "-0.196787", "0.118000", "0.000000", "0.008213", "0.000000"),
            (N(answer, "diameter"), N(answer, "x"), N(answer, "y"), N(answer, "z"), N(answer, "bx"), N(answer, "by"), N(answer, "bz")));
        Assert.Equal(("pinbed-1", 3, "pick", 0.0924, true), (answer.Fixture, answer.Revision, answer.Purpose, answer.Diameter, answer.First));
        Assert.Equal([0, 0], answer.Nest);
        Assert.Equal([0, 1, 0, 0], answer.Orientation);
        Assert.Equal((null, null, null), (answer.Measurement, answer.Age, answer.Lot));
    }

    [Fact]
    public void The_shift_is_told_in_the_origin_s_own_axes_too()
    {
        // The origin points straight down: its y and z run against the base's.
        var answer = Bed.Locate(0.0924);

        Assert.Equal(("0.000000", "-0.008213", "0.000000"), (N(answer, "ox"), N(answer, "oy"), N(answer, "oz")));
    }

    [Fact]
    public void Who_asked_is_in_the_answer()
    {
        var answer = Bed.Locate(0.0924);

        Assert.Equal(("bench", "demo", "127.0.0.1:4000", "17", "r-1"), (answer.Client, answer.Cell, answer.Address, answer.Tag, answer.Request));
    }

    [Theory]
    [InlineData(Purpose.Pick, "pick", 0.0003)]
    [InlineData(Purpose.Place, "place", 0.0005)]
    public void The_stand_off_is_the_purpose_s(Purpose purpose, string name, double standOff)
    {
        var answer = Bed.Locate(0.0924, purpose: purpose);

        // Two equal pins at 30 mm: v = sqrt((R + r)^2 - a^2).
        static double V(double reach) => Math.Sqrt(reach * reach - 0.03 * 0.03);
        Assert.Equal(V(0.0462 + standOff + 0.006) - V(0.046), answer.ShiftBase[1], 1e-12);
        Assert.Equal((name, standOff), (answer.Purpose, answer.StandOff));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(5, 0)]
    [InlineData(2, 1)]
    [InlineData(5, 3)]
    public void Another_nest_lies_its_pitches_away_and_shifts_the_same(int column, int row)
    {
        var (origin, other) = (Bed.Locate(0.0924), Bed.Locate(0.0924, column: column, row: row));

        Assert.Equal(origin.Position[0] + column * 0.125, other.Position[0], 1e-12);
        Assert.Equal(origin.Position[1] + row * 0.130, other.Position[1], 1e-12);
        Assert.Equal(origin.Position[2], other.Position[2]);
        Assert.Equal(origin.ShiftBase, other.ShiftBase);
        Assert.Equal([column, row], other.Nest);
    }

    [Fact]
    public void A_turned_rack_of_vees_moves_along_its_own_axes()
    {
        var answer = Bench.Serving(Revisions.Demo("veerack-2/r0002.json")).Locate(3.5 * In, "veerack-2", column: 3, row: 1);

        // A 90 degree vee: v = R / sin 45. The rack is turned by 30 degrees: u = (cos, sin), v = (-sin, cos).
        var (c, s) = (Math.Sqrt(3) / 2, 0.5);
        var shift = (1.75 + 0.010 - 1.5) * Math.Sqrt(2) * In;
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
    public void A_bar_on_rollers_rises_and_its_places_lie_along_it()
    {
        var answer = Bench.Serving(Revisions.Demo("rollers-3/r0001.json")).Locate(0.1, "rollers-3", column: 2);

        Assert.Equal(-0.310 + 2 * 0.450, answer.Position[0], 1e-9);
        Assert.Equal(0.540, answer.Position[1], 1e-9);
        Assert.Equal(0.0955 + 0.060 - Math.Sqrt(0.065 * 0.065 - 0.045 * 0.045), answer.Position[2], 1e-9);
    }

    [Fact]
    public void A_fixture_that_nobody_knows() => Assert.Null(Bed.Refused(Reason.FixtureUnknown, 0.08, "pinbed-9").Revision);

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
    public void A_broken_file_of_the_revision_in_force_leaves_it_in_force()
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

    private static string N(AnswerBody answer, string name)
    {
        Assert.True(answer.TryNumber(name, out var value));
        return FixedPoint.Text(value, answer.Decimals);
    }
}
