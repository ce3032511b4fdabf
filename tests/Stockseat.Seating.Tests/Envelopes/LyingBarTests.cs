using Stockseat.Seating.Envelopes;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Bars on two rollers, one behind another along w every 500 mm, and side by side every 200 mm. Metres.</summary>
public class LyingBarTests
{
    private static readonly Plan Bars = Plans.Bed with
    {
        Columns = 3, AlongWMetres = -0.5, Rows = 2, RowStep = new(0.2, 0), StockLengthMetres = 0.48, GapMetres = 0.02,
    };

    [Fact]
    public void BarsBehindEachOther_LeaveThePitchMinusTheirLength()
    {
        var along = Gaps.At(Bars, 0.080).Single(gap => gap.Theirs.Column != 0);
        Assert.Equal((new(PartyKind.Stock), new(PartyKind.Stock, 0, 1)), (along.Mine, along.Theirs));
        Close.To(0.02, along.Metres, 1e-12);
    }

    [Fact]
    public void BarsBehindEachOther_DoNotMeetInThePlan()
    {
        var greatest = Plans.Solved(Bars).Greatest;
        Close.To(0.18, greatest.DiameterMetres, 1e-6);
        Assert.Equal((PartyKind.Stock, 0, 1), (greatest.Gap!.Value.Theirs.Kind, greatest.Gap.Value.Theirs.Column, Math.Abs(greatest.Gap.Value.Theirs.Row)));
    }

    [Fact]
    public void BarsThatAreTooLong_AreViolatedAtTheTaughtDiameter()
    {
        var violated = Plans.Violated(Bars with { StockLengthMetres = 0.481 });
        Assert.Equal((Constraint.Gap, 0.02), (violated.Constraint, violated.Limit));
        Close.To(0.019, violated.Gap!.Value.Metres, 1e-12);
    }

    [Fact]
    public void RowsCanRepeatAlongWToo()
    {
        var rows = Bars with { Columns = 2, ColumnStep = Bars.RowStep, Rows = 3, RowStep = default };
        Assert.Equal(new Party(PartyKind.Stock, 0, 0, 1), Gaps.At(rows, 0.080).Single(gap => gap.Theirs.Row != 0).Theirs);
        Close.To(0.18, Plans.Solved(rows).Greatest.DiameterMetres, 1e-6);
    }

    [Fact]
    public void WithoutALength_NothingIsCheckedAlongW() =>
        Assert.DoesNotContain(Gaps.At(Bars with { StockLengthMetres = null }, 0.080), gap => gap.Theirs.Column != 0);
}
