using System.Text;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Frames;
using static Stockseat.Fixtures.Tests.Calibration.Touches;

namespace Stockseat.Fixtures.Tests.Calibration;

public sealed class CalibratorTests
{
    private static readonly (int Column, int Row)[] Six = [(0, 0), (2, 0), (4, 0), (0, 1), (2, 1), (4, 1)];

    [Fact]
    public void A_rack_at_30_deg_is_found_from_six_nests()
    {
        var outcome = Calibrate(Rack, Table(Six.Select(n => OfRack(n.Column, n.Row, 80))));

        Assert.Empty(outcome.Faults);
        var frame = outcome.Frame!;
        Near(new(-0.5, 0.866025403784439, 0), frame.Fit.Frame.V, 1e-12);
        Near(new(0, 0, 1), frame.Fit.Frame.W, 1e-12);
        Near(new(0.655, 0.18, 0.24), frame.OriginMetres, 1e-12);
        Assert.InRange(frame.Fit.WorstMetres, 0, 1e-12);
    }

    [Fact]
    public void A_written_revision_reads_back_with_lengths_as_typed_and_comments_kept()
    {
        var rows = Table(Six.Select(n => OfRack(n.Column, n.Row, 80)));
        var text = Encoding.UTF8.GetString(Calibrate(Rack, rows).Text!.Value.Span);
        var revision = Repository.Good(text);

        Assert.Equal((9, "day setter"), (revision.Number, revision.Calibrated.By));
        Assert.Contains($"\"x\": \"{rows[3].X}\"", text, StringComparison.Ordinal);
        Assert.Contains("// along the rack, pointing straight down", text, StringComparison.Ordinal);
        Assert.Equal(rows.Select(r => r.Nest), revision.Touched!.Nests);
        Assert.Equal(Repository.Good(Repository.Text(Rack)).Limits, revision.Limits);
    }

    [Fact]
    public void The_ledgers_content_gives_the_same_frame_bit_for_bit()
    {
        var revision = Repository.Good(
            Encoding.UTF8.GetString(
                Calibrate(Rack, Table(Six.Select((n, i) => OfRack(n.Column, n.Row, 80, 0.03 * (i % 3), 0.02 * i, -0.04 * (i % 2))))).Text!.Value.Span));
        var again = RevisionReader.FromContent(revision.Content, "entry 1").Revision!;

        Assert.Equal(revision.Digest, again.Digest);
        Assert.Equal(revision.Frame, again.Frame);
    }

    [Fact]
    public void Nests_named_in_the_reverse_order_are_refused()
    {
        // Half a turn about the normal: a proper rotation onto a flat layout, without any residual.
        var outcome = Calibrate(
            Rack, Table(
                Six.Select(
                    n => OfRack(4 - n.Column, 1 - n.Row, 80).Replace($"\"{4 - n.Column},{1 - n.Row}\"", $"\"{n.Column},{n.Row}\"", StringComparison.Ordinal))));

        Assert.Contains("by the touched nests, nest 0,0 lies", Assert.Single(outcome.Faults), StringComparison.Ordinal);
        Assert.Null(outcome.Text);
    }

    [Fact]
    public void Nests_along_one_direction_in_the_reverse_order_are_refused()
    {
        var outcome = Calibrate(
            Rack, Table(
                Six.Select(n => OfRack(4 - n.Column, n.Row, 80).Replace($"\"{4 - n.Column},{n.Row}\"", $"\"{n.Column},{n.Row}\"", StringComparison.Ordinal))));

        Assert.Contains("points against the stated one", Assert.Single(outcome.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_chip_under_one_master_is_found_and_its_nest_is_named()
    {
        var outcome = Calibrate(Rack, Table(Six.Select((n, i) => OfRack(n.Column, n.Row, 80, 0.02 * (i % 2), i == 4 ? 2.5 : 0.03 * (i % 3)))));

        var fault = Assert.Single(outcome.Faults);
        Assert.StartsWith("touched.csv: nest 2,1 (master of 80 mm) lies ", fault, StringComparison.Ordinal);
        Assert.Contains("the limit is 0.5 mm; it stands out from the others", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_pitch_blames_no_single_nest()
    {
        // Measured 1 % farther apart than drawn along u.
        var outcome = Calibrate(Rack, Table(Six.Select(n => OfRack(n.Column, n.Row, 80, 1.143 * n.Column))), Request() with { OriginLimit = "10 mm" });

        Assert.Contains("none stands out from the others", Assert.Single(outcome.Faults), StringComparison.Ordinal);
        Assert.Equal(1.01, outcome.Frame!.Fit.ScaleAlongU!.Value, 1e-9);
    }

    [Fact]
    public void Two_nests_and_the_normal_are_enough_for_the_seat_axis()
    {
        var fit = Calibrate(Rack, Table(OfRack(0, 0, 80), OfRack(4, 0, 80))).Frame!.Fit;

        Assert.True(fit.NormalHeld);
        Near(new(-0.5, 0.866025403784439, 0), fit.Frame.V, 1e-12);
    }

    [Theory]
    [InlineData("one touched nest gives no direction", "0,0")]
    [InlineData("lie in one line", "0,0", "2,0", "4,0")]
    public void Too_few_touches_are_refused(string says, params string[] nests)
    {
        var outcome = Calibrate(Rack, Table(nests.Select(n => OfRack(n[0] - '0', n[2] - '0', 80))));

        Assert.Contains(says, Assert.Single(outcome.Faults), StringComparison.Ordinal);
        Assert.Null(outcome.Frame);
    }

    [Theory]
    [InlineData("one touched nest gives no direction", 0, 0)]
    [InlineData("lie in one line", 1, 2)]
    public void Masters_of_several_diameters_do_not_replace_further_nests_or_a_second_line(string says, int second, int third)
    {
        var outcome = Calibrate(Rack, Table(OfRack(0, 0, 60), OfRack(second, 0, 80), OfRack(third, 0, 90)));

        Assert.Contains(says, Assert.Single(outcome.Faults), StringComparison.Ordinal);
        Assert.Null(outcome.Frame);
    }

    /// <summary>
    /// All nests of the demo's rollers lie along w, so only masters of several diameters spread in the plan: 0.05 mm thicker is some 0.04 mm higher.
    /// </summary>
    [Fact]
    public void A_turn_that_only_the_scatter_of_touches_would_determine_is_refused()
    {
        var outcome = Calibrate(
            "rollers-3/r0002.json", Table("\"0,0\",80,-310,540,95.5\n", "\"1,0\",80.05,140,540.08,95.47\n", "\"2,0\",80.05,590,540.05,95.45\n"));

        Assert.Contains("may turn the plan by", Assert.Single(outcome.Faults), StringComparison.Ordinal);
        Assert.Null(outcome.Text);
    }

    [Fact]
    public void A_nest_outside_the_layout_or_touched_twice_names_its_line()
    {
        var outcome = Calibrate(Rack, Table(OfRack(0, 0, 80), OfRack(5, 0, 80), OfRack(0, 1, 80), OfRack(0, 0, 80), OfRack(0, 0, 70)));

        Assert.Equal(["line 3", "line 5"], outcome.Faults.Select(f => f.Split(": ")[1]));
        Assert.Contains("columns 0 to 4 and rows 0 to 1", outcome.Faults[0], StringComparison.Ordinal);
        Assert.Contains("appears twice", outcome.Faults[1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_fixture_that_was_moved_takes_its_origin_from_the_touched_nests_when_asked_to()
    {
        var moved = Table(Six.Select(n => OfRack(n.Column, n.Row, 80, 40, -12)));

        Assert.Contains("or the fixture was moved", Assert.Single(Calibrate(Rack, moved).Faults), StringComparison.Ordinal);
        var revision = Repository.Good(Encoding.UTF8.GetString(Calibrate(Rack, moved, Request() with { OriginFromTouches = true }).Text!.Value.Span));

        // Moved by 40 mm along u and −12 mm along v: 40 cos 30° + 12 sin 30°, 40 sin 30° − 12 cos 30°.
        Near(new(0.655 + 0.0406410161513775, 0.18 + 0.00960769515458674, 0.24), revision.TaughtOrigin.PositionMetres, 1e-7);
    }

    [Fact]
    public void An_origin_from_nests_in_reverse_order_is_refused_by_the_drawing_s_frame()
    {
        var reversed = Table(
            Six.Select(
                n => OfRack(4 - n.Column, 1 - n.Row, 80).Replace($"\"{4 - n.Column},{1 - n.Row}\"", $"\"{n.Column},{n.Row}\"", StringComparison.Ordinal)));

        Assert.Contains(
            "turned by 180 deg", Assert.Single(Calibrate(Rack, reversed, Request() with { OriginFromTouches = true }).Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void Limits_that_the_revision_states_for_touched_nests_apply_in_the_next_revision_too()
    {
        var rows = Table(Six.Select(n => OfRack(n.Column, n.Row, 80)));
        var stated = Encoding.UTF8.GetString(Calibrate(Rack, rows, Request() with { ResidualLimit = "0.15 mm", OriginLimit = "0.3mm" }).Text!.Value.Span);
        var chipped = Table(Six.Select((n, i) => OfRack(n.Column, n.Row, 80, 0, i == 4 ? 0.4 : 0)));

        Assert.Contains("the limit is 0.15 mm", Assert.Single(Calibrate(Rack, chipped, text: stated).Faults), StringComparison.Ordinal);
        var next = Calibrate(Rack, chipped, Request() with { ResidualLimit = "0.4 mm" }, stated);
        Assert.Equal(new TouchLimits(0.0004, 0.0003), Repository.Good(Encoding.UTF8.GetString(next.Text!.Value.Span)).Touched!.Limits);
    }

    private static void Near(Vector3 expected, Vector3 actual, double tolerance) =>
        Assert.True((expected - actual).Length <= tolerance, $"expected {expected}, was {actual}");
}
