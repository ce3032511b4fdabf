using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class LayoutTests
{
    [Fact]
    public void The_turned_rack_runs_along_its_own_axes()
    {
        // By hand: u is base x turned by 30 deg, (√3/2, 1/2); v is base y turned by 30 deg, (−1/2, √3/2); the pitches are 114.3 mm and 152.4 mm.
        var rack = Repository.Good(Repository.Text("veerack-2/r0001.json"));

        Near(new(0, 0, 0), rack.Layout.OffsetBase(rack.Frame, 0, 0));
        Near(new(0.0989867036525613, 0.05715, 0), rack.Layout.OffsetBase(rack.Frame, 1, 0));
        Near(new(-0.0762, 0.131982271536748, 0), rack.Layout.OffsetBase(rack.Frame, 0, 1));
        Near(new(4 * 0.0989867036525613 - 0.0762, 4 * 0.05715 + 0.131982271536748, 0), rack.Layout.OffsetBase(rack.Frame, 4, 1));
    }

    [Fact]
    public void The_tilted_bed_goes_up_its_own_slope()
    {
        // By hand: 625 mm along u (0.8, 0.6, 0) and 390 mm along v (−0.576, 0.768, 0.28).
        var bed = Repository.Good(Repository.Text("pinbed-1/r0003.json"));

        Near(new(0.27536, 0.67452, 0.1092), bed.Layout.OffsetBase(bed.Frame, 5, 3));
        Assert.Equal((6, 4), (bed.Layout.Columns, bed.Layout.Rows));
    }

    [Fact]
    public void The_rollers_run_along_the_bars()
    {
        // The fixture's w is base x.
        var rollers = Repository.Good(Repository.Text("rollers-3/r0001.json"));

        Near(new(0.9, 0, 0), rollers.Layout.OffsetBase(rollers.Frame, 2, 0));
        Assert.Equal((3, 1), (rollers.Layout.Columns, rollers.Layout.Rows));
    }

    [Fact]
    public void A_negative_pitch_runs_against_its_direction()
    {
        Assert.True(PlanFrame.TryCreate(new(0, 1, 0), new(0, 0, 1), out var frame));

        Near(new(-0.2, 0, 0.3), new Layout(new('u', 3, -0.1), new('w', 4, 0.1)).OffsetBase(frame, 2, 3));
    }

    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(4, 1, true)]
    [InlineData(5, 1, false)]
    [InlineData(4, 2, false)]
    [InlineData(-1, 0, false)]
    [InlineData(0, -1, false)]
    public void A_nest_is_within_the_layout_or_not(int column, int row, bool has) =>
        Assert.Equal(has, Repository.Good(Repository.Text("veerack-2/r0001.json")).Layout.Has(column, row));

    [Fact]
    public void Without_a_layout_there_is_one_nest()
    {
        var text = Repository.Edit(
            Repository.Text("rollers-3/r0001.json"), "\"layout\": [ { \"direction\": \"w\", \"count\": 3, \"pitch\": \"450 mm\" } ],", "");
        var single = Repository.Good(text);

        Assert.Equal((1, 1), (single.Layout.Columns, single.Layout.Rows));
        Assert.True(single.Layout.Has(0, 0));
        Assert.False(single.Layout.Has(1, 0));
        Near(new(0, 0, 0), single.Layout.OffsetBase(single.Frame, 0, 0));
    }

    private static void Near(Vector3 expected, Vector3 actual) => Assert.True((expected - actual).Length < 1e-13, $"{actual}");
}
