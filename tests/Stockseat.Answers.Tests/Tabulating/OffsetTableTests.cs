using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tabulating;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Tabulating;

public class OffsetTableTests
{
    /// <summary>All revisions of the demo that allow some diameter.</summary>
    public static TheoryData<string, Purpose> DemoRevisions
    {
        get
        {
            var data = new TheoryData<string, Purpose>();
            foreach (var file in new[] { "pinbed-1/r0001.json", "pinbed-1/r0002.json", "pinbed-1/r0003.json", "veerack-2/r0002.json", "rollers-3/r0001.json",
                "rollers-3/r0002.json" })
            {
                data.Add(file, Purpose.Pick);
                data.Add(file, Purpose.Place);
            }

            return data;
        }
    }

    /// <summary>
    /// When the printed diameter is asked for as somebody would type it, the answer has the printed numbers to the last digit, at the origin and at the last
    /// nest.
    /// </summary>
    [Theory]
    [MemberData(nameof(DemoRevisions))]
    public void Each_row_is_the_answer_to_its_printed_diameter(string file, Purpose purpose)
    {
        var read = Revisions.Demo(file);
        var revision = read.Reading.Revision!;
        foreach (var (column, row) in new[] { (0, 0), (revision.Layout.Columns - 1, revision.Layout.Rows - 1) })
        {
            var bench = Bench.Serving(read);
            var table = Made(revision, purpose, (column, row), new());

            Assert.True(table.Rows.Count > 10);
            foreach (var line in table.Rows)
            {
                Assert.Equal(QuantityFault.None, Quantity.TryParseLength($"{FixedPoint.Text(line.DiameterMetres, 3, 3)}mm", false, out var asked));
                var answer = bench.Locate(asked, revision.Fixture, purpose, column, row);
                Assert.Equal(Texts(answer.Diameter, answer.ShiftBase, answer.Position, answer.Uncertainty),
                    Texts(line.DiameterMetres, Three(line.ShiftBase), Three(line.PositionMetres), line.Sure));
                Assert.Equal(answer.ShiftBase, Three(line.ShiftBase));
                Assert.Equal(answer.Position, Three(line.PositionMetres));
                Assert.Equal(answer.Uncertainty, line.Sure);
            }
        }
    }

    [Theory]
    [MemberData(nameof(DemoRevisions))]
    public void Beyond_both_ends_of_the_table_the_service_refuses(string file, Purpose purpose)
    {
        var read = Revisions.Demo(file);
        var bench = Bench.Serving(read);
        var rows = Made(read.Reading.Revision!, purpose, (0, 0), new()).Rows;

        bench.Refused(Reason.DiameterBelowEnvelope, rows[0].DiameterMetres - 0.000_002, read.Reading.Revision!.Fixture, purpose);
        bench.Refused(Reason.DiameterAboveEnvelope, rows[^1].DiameterMetres + 0.000_002, read.Reading.Revision!.Fixture, purpose);
    }

    [Fact]
    public void Rows_are_whole_millimetres_the_taught_diameter_and_both_ends()
    {
        var file = Revisions.Good(limits: """{ "diameter": [ "77.6664 mm", "3.2 in" ] }""");
        var rows = Made(file.Reading.Revision!, Purpose.Pick, (0, 0), new()).Rows;

        Assert.Equal(["77.667", "78.000", "79.000", "80.000", "81.000", "81.280"], rows.Select(r => FixedPoint.Text(r.DiameterMetres, 3, 3)));
        Assert.Equal([RowMarks.Least, 0, 0, RowMarks.Taught, 0, RowMarks.Greatest], rows.Select(r => r.Marks));
    }

    [Fact]
    public void A_step_in_inches_makes_rows_at_whole_multiples_of_it()
    {
        var file = Revisions.Good(limits: """{ "diameter": [ "3 in", "4 in" ] }""");
        var rows = Made(file.Reading.Revision!, Purpose.Pick, (0, 0), new(0.07874, 0.08382, 0.00127)).Rows;

        Assert.Equal(["78.740", "80.000", "80.010", "81.280", "82.550", "83.820"], rows.Select(r => FixedPoint.Text(r.DiameterMetres, 3, 3)));
        Assert.Equal(0, rows.Count(r => r.Marks is RowMarks.Least or RowMarks.Greatest));
    }

    [Fact]
    public void A_table_with_too_many_rows_to_hang_up_is_refused()
    {
        var revision = Revisions.Demo("pinbed-1/r0003.json").Reading.Revision!;

        Assert.Null(OffsetTable.Of(revision, Purpose.Pick, (0, 0), null, new(StepMetres: 0.000_01), out var refusal, out var fault));
        Assert.Null(refusal);
        Assert.Equal("60 mm to 100 mm in steps of 0.01 mm makes 4001 rows; at most 2000 are made: take a larger step, or a shorter range", fault);
    }

    [Theory]
    [InlineData(0.02, 0.03, Reason.DiameterBelowEnvelope)]
    [InlineData(0.11, 0.12, Reason.DiameterAboveEnvelope)]
    public void A_range_in_which_every_diameter_is_refused_gives_the_refusal(double from, double to, Reason reason)
    {
        Assert.Null(OffsetTable.Of(Revisions.Demo("pinbed-1/r0003.json").Reading.Revision!, Purpose.Pick, (0, 0), null, new(from, to), out var refusal, out _));
        Assert.Equal(reason, refusal!.Reason);
    }

    /// <summary>The demo's first rack allows no diameter: its jaws meet a face.</summary>
    [Theory]
    [InlineData(Purpose.Pick)]
    [InlineData(Purpose.Place)]
    public void A_revision_that_allows_no_diameter_is_refused(Purpose purpose)
    {
        Assert.Null(OffsetTable.Of(Revisions.Demo("veerack-2/r0001.json").Reading.Revision!, purpose, (0, 0), null, new(), out var refusal, out _));
        Assert.Equal(Reason.CalibrationUnusable, refusal!.Reason);
    }

    [Fact]
    public void A_nest_that_does_not_exist_is_refused()
    {
        Assert.Null(OffsetTable.Of(Revisions.Demo("pinbed-1/r0003.json").Reading.Revision!, Purpose.Pick, (6, 0), null, new(), out var refusal, out _));
        Assert.Equal(Reason.NestUnknown, refusal!.Reason);
    }

    /// <summary>The sensitivity grows towards small diameters, and U grows with it.</summary>
    [Fact]
    public void Diameters_whose_uncertainty_is_refused_are_left_out_and_counted()
    {
        const string Known = """ "uncertainty": { "askedDiameter": "0.05 mm", "teaching": "0.1 mm", "seating": "0.05 mm" }, """;
        var file = Revisions.Good(extra: Known, limits: """{ "diameter": [ "60 mm", "100 mm" ], "uncertainty": "0.135 mm" }""");
        var table = Made(file.Reading.Revision!, Purpose.Pick, (0, 0), new());
        var bench = Bench.Serving(file);

        Assert.Equal(41, table.Rows.Count + table.LeftOut);
        Assert.InRange(table.LeftOut, 1, 39);
        Assert.Equal(Reason.UncertaintyAboveLimit, table.WhyLeftOut!.Reason);
        bench.Refused(Reason.UncertaintyAboveLimit, table.Rows[0].DiameterMetres - 0.001);
        bench.Locate(table.Rows[0].DiameterMetres);
    }

    [Fact]
    public void With_a_gauge_the_gauge_s_uncertainty_is_used()
    {
        var revision = Revisions.Demo("pinbed-1/r0003.json").Reading.Revision!;
        var from = new DiameterFrom { Gauge = "bench-2", Limits = new() { LimitsOfError = 0.00003 } };
        var gauged = OffsetTable.Of(revision, Purpose.Pick, (0, 0), from, new(), out _, out _)!;

        Assert.True(gauged.Rows[0].Sure!.Along < Made(revision, Purpose.Pick, (0, 0), new()).Rows[0].Sure!.Along);
    }

    private static OffsetTable Made(Revision revision, Purpose purpose, (int, int) nest, TableSteps steps)
    {
        var table = OffsetTable.Of(revision, purpose, nest, null, steps, out var refusal, out var fault);
        Assert.True(table is not null, refusal?.Text ?? fault);
        return table;
    }

    private static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];

    private static string Texts(double diameter, double[] shift, double[] position, AnswerUncertainty? sure) => string.Join(
        ' ', ((double?[])[diameter, .. shift, .. position, sure?.Along, sure?.Across, sure?.AlongWorst, sure?.AcrossWorst])
            .Select(n => n is { } v ? FixedPoint.Text(v) : "-"));
}
