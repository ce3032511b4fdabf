using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Quantities;
using static Stockseat.Fixtures.Tests.Calibration.Touches;

namespace Stockseat.Fixtures.Tests.Calibration;

/// <summary>What calibrate says about the turn of the fitted frame against the revision that it starts from.</summary>
public sealed class TurnTextTests
{
    private static readonly (int Column, int Row)[] Six = [(0, 0), (2, 0), (4, 0), (0, 1), (2, 1), (4, 1)];

    [Fact]
    public void Touches_where_the_revision_says_show_no_turn() => Assert.Equal(
        ["compared with revision 2, the seat axis is turned by 0.0000 deg and the normal by 0.0000 deg"],
        Said(Six.Select(n => OfRack(n.Column, n.Row, 80))));

    /// <summary>The rack's columns are 4 × 114.3 mm long: at 0.225 deg the far one is 457.2 · sin 0.225° = 1.795 mm off.</summary>
    [Fact]
    public void A_turn_in_the_plan_is_read_as_a_turned_seat_axis()
    {
        var said = Said(Six.Select(n => OfRack(n.Column, n.Row, 80, degrees: 30.225)));

        Assert.Equal("compared with revision 2, the seat axis is turned by 0.2250 deg and the normal by 0.0000 deg", said[0]);
        Assert.Equal(
            "a row along u runs off evenly sideways, along v, by 1.795 mm at its far end: in revision 2 the seat axis is turned in the plan, by 0.2250 deg",
            said[1]);
        Assert.StartsWith("if nobody turned the fixture, look in revision 2 for a wrong sign", said[2], StringComparison.Ordinal);
        Assert.Equal(3, said.Length);
    }

    /// <summary>Each column rises by 1 mm: the plane's slope along u is 1 : 114.3, an angle of atan (1/114.3) = 0.5013 deg.</summary>
    [Fact]
    public void A_rise_along_u_is_read_as_a_turned_normal()
    {
        var said = Said(Six.Select(n => OfRack(n.Column, n.Row, 80, dw: n.Column)));

        Assert.Equal("compared with revision 2, the seat axis is turned by 0.0000 deg and the normal by 0.5013 deg", said[0]);
        Assert.StartsWith("a row along u runs off evenly out of the plan, by 4 mm at its far end: in revision 2 the normal is turned, by 0.5013", said[1],
            StringComparison.Ordinal);
    }

    /// <summary>The second row is 1 mm higher: atan (1/152.4) = 0.3760 deg, about u, which turns both axes.</summary>
    [Fact]
    public void A_rise_along_v_is_read_as_both_axes_turned()
    {
        var said = Said(Six.Select(n => OfRack(n.Column, n.Row, 80, dw: n.Row)));

        Assert.Equal("compared with revision 2, the seat axis is turned by 0.3760 deg and the normal by 0.3760 deg", said[0]);
        Assert.StartsWith("a row along v runs off evenly out of the plan, by 1 mm at its far end: in revision 2 the normal and the seat axis are turned "
            + "together, by 0.3760", said[1], StringComparison.Ordinal);
    }

    /// <summary>
    /// A rack of one row holds its normal as stated; that it rises by 1 mm in 114.3 mm shows in the residuals, and in the words of the refusal.
    /// </summary>
    [Fact]
    public void A_rising_single_row_says_which_normal_to_state()
    {
        var text = Repository.Text(Rack);
        var one = JsonSplice.Replace(
            System.Text.Encoding.UTF8.GetBytes(text),
            new Dictionary<string, string> { ["layout"] = """[ { "direction": "u", "count": 5, "pitch": "4.5 in" } ]""" });
        var rows = Table(Enumerable.Range(0, 5).Select(i => OfRack(i, 0, 80, dw: i)));
        var outcome = Touches.Calibrate(Rack, rows, text: System.Text.Encoding.UTF8.GetString(one));

        var trend = outcome.Frame!.Fit.Trend!;
        Assert.StartsWith("towards growing u the touched nests rise evenly out of the plan, by 4 mm over the row: the stated normal is turned by 0.501 deg "
            + "about v. Correct the stated frame so that its normal is x -0.007576, y -0.004374, z 0.999962, and", TrendText.Said(trend, LengthUnit.Millimetre),
            StringComparison.Ordinal);
        Assert.Contains("; the limit is 0.5 mm; towards growing u the touched nests rise evenly", outcome.Faults[0], StringComparison.Ordinal);
    }

    private static string[] Said(IEnumerable<string> lines)
    {
        var (drawing, outcome) = (Repository.Good(Repository.Text(Rack)), Touches.Calibrate(Rack, Table(lines)));
        return [.. TurnText.Sentences(outcome.TurnFrom(drawing)!.Value, outcome.Frame!, drawing, LengthUnit.Millimetre)];
    }
}
