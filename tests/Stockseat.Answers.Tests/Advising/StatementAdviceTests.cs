using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Advising;

public class StatementAdviceTests
{
    private const string Frame = "\"frame\": { \"aboutZ\": \"-20 deg\", \"thenY\": \"0 deg\", \"thenX\": \"25 deg\" }";

    private static readonly DateTimeOffset Now = new(2026, 11, 30, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_right_revision_gets_no_advice() => Assert.Empty(Of(Racks.Right));

    [Fact]
    public void A_tool_that_points_out_of_the_bed_is_noticed() =>
        Noticed("taught.orientation", "180 deg from the way into the plan", ("\"thenX\": \"205 deg\"", "\"thenX\": \"25 deg\""));

    [Fact]
    public void A_seat_axis_that_points_down_is_noticed() => Noticed(
        "frame", "points 25 deg downward", (Frame, "\"frame\": { \"seatAxis\": { \"x\": -0.309975519, \"y\": -0.851650740, \"z\": -0.422618262 }, "
            + "\"normal\": { \"x\": -0.144543958, \"y\": -0.397131261, \"z\": 0.906307787 } }"));

    [Fact]
    public void A_level_seat_axis_is_noticed_unless_something_pushes()
    {
        (string, string)[] level = [(Frame, "\"frame\": { \"aboutZ\": \"-20 deg\", \"thenY\": \"0 deg\", \"thenX\": \"0 deg\" }"), ("205 deg", "180 deg")];

        Noticed("frame", "lies level", level);
        Assert.Empty(Of(Racks.With([.. level, ("\"revision\": 1,", "\"revision\": 1, \"seatedBy\": \"push\",")])));
    }

    [Fact]
    public void Another_way_up_is_taken() => Noticed(
        "frame", "downward", ("\"revision\": 1,", "\"revision\": 1, \"up\": { \"x\": 0, \"y\": 0, \"z\": -1 },"));

    [Fact]
    public void A_small_turn_between_frame_and_tool_is_noticed() =>
        Noticed("taught.orientation", "differ by 1.5 deg from a multiple of 90 deg", ("\"thenX\": \"205 deg\"", "\"thenX\": \"206.5 deg\""));

    [Fact]
    public void Cosines_with_two_digits_are_noticed()
    {
        var found = Of(
            Racks.With((Frame, "\"frame\": { \"seatAxis\": { \"x\": 0.34, \"y\": 0.94, \"z\": 0 }, \"normal\": { \"x\": 0, \"y\": 0, \"z\": 1 } }")));

        Assert.Contains(found, f => f is { Where: "frame.seatAxis", Severity: Severity.Advice } && f.Text.Contains("rounded", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("0.6", "0.8")]
    [InlineData("3", "4")]
    public void Exact_directions_are_not_called_rounded(string x, string y)
    {
        var found = Of(
            Racks.With((Frame, $"\"frame\": {{ \"seatAxis\": {{ \"x\": {x}, \"y\": {y}, \"z\": 0 }}, \"normal\": {{ \"x\": 0, \"y\": 0, \"z\": 1 }} }}")));

        Assert.DoesNotContain(found, f => f.Text.Contains("rounded", StringComparison.Ordinal));
    }

    [Fact]
    public void A_spacing_that_may_be_between_edges_is_noticed()
    {
        Noticed("nest.pins.spacing", "measured over the pins, it is 27.3 mm", (", \"between\": \"centres\"", ""));
        var edges = Revisions.File(1, "{ \"nest\": { \"pins\": { \"spacing\": \"40 mm\", \"diameter\": \"12 mm\", \"between\": \"edges\" } } }");
        Assert.Contains(edges.Reading.Faults, f => f.Contains("only \"centres\" is known", StringComparison.Ordinal));
    }

    [Fact]
    public void Near_neighbours_without_a_gripper_are_noticed() => Noticed(
        "gripper", "the neighbouring nests are 75 mm away",
        ("\"gripper\": { \"jaws\": 2, \"jawWidth\": \"10 mm\", \"jawThickness\": \"5 mm\", \"clocking\": \"90 deg\", \"openBy\": \"5 mm\", \"stroke\": [ "
            + "\"30 mm\", "
            + "\"90 mm\" ] },", ""));

    [Fact]
    public void Inches_typed_as_millimetres_and_the_other_way_are_noticed()
    {
        var others = new[] { Racks.Right.Reading.Revision! };

        Assert.Equal("taught.position", Assert.Single(Of(Racks.With(("500 mm", "500 in"), ("-300 mm", "-300 in"), ("250 mm", "250 in")), others)).Where);
        Assert.Equal("taught.position", Assert.Single(Of(Racks.With(("500 mm", "19.7 mm"), ("-300 mm", "-11.8 mm"), ("250 mm", "9.8 mm")), others)).Where);
        Assert.Empty(Of(Racks.Right, others));
    }

    [Fact]
    public void A_calibration_of_tomorrow_is_noticed() =>
        Noticed("calibrated.at", "still to come", ("2026-11-20T09:12:00Z", "2026-12-01T09:12:00Z"));

    private static void Noticed(string where, string said, params (string, string)[] edits) =>
        Assert.Contains(Of(Racks.With(edits)), f => f.Where == where && f.Severity == Severity.Advice && f.Text.Contains(said, StringComparison.Ordinal));

    private static IReadOnlyList<Finding> Of(RevisionFile file, IReadOnlyList<Revision>? others = null) =>
        RevisionFindings.Of(file.Reading, null, null, null, LengthUnit.Millimetre, new(Now, others ?? []));
}
