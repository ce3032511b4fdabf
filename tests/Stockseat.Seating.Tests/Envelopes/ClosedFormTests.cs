using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Ends of envelopes that can be worked out by hand; on two pins of 12 mm, 60 mm apart, unless stated otherwise. Metres.</summary>
public class ClosedFormTests
{
    private const double Micrometre = 1e-6;

    /// <summary>R + r = a: 2·(30 − 6) = 48 mm.</summary>
    [Fact]
    public void StockDropsWhereItFitsBetweenThePins()
    {
        var least = Plans.Solved(Plans.Bed).Least;
        Close.To(0.048, least.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.NoSeat, null), (least.Constraint, least.Limit));
    }

    [Fact]
    public void NothingStated_ReachesToTheLargestDiameterTried()
    {
        var greatest = Plans.Solved(Plans.Bed).Greatest;
        Assert.Equal((5.0, Constraint.Reach), (greatest.DiameterMetres, greatest.Constraint));
    }

    /// <summary>1/cos θ = 2 at sin θ = √3/2 = a/(R + r): D = 2·(30/0.8660… − 6).</summary>
    [Fact]
    public void Sensitivity_LimitsBelow()
    {
        var least = Plans.Solved(Plans.Bed with { Sensitivity = 2 }).Least;
        Close.To(2 * ((0.030 / Math.Sqrt(0.75)) - 0.006), least.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Sensitivity, 2.0), (least.Constraint, least.Limit));
    }

    /// <summary>The cone's edge is θ from the axis: sin 30° = 30/60, so R + r = 60 mm.</summary>
    [Fact]
    public void HeldAngle_LimitsAbove()
    {
        var greatest = Plans.Solved(Plans.Bed with { HeldRadians = Math.PI / 6 }).Greatest;
        Close.To(0.108, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.HeldAngle, Math.PI / 6), (greatest.Constraint, greatest.Limit));
    }

    /// <summary>In a 60° vee v = 2R: a shift of 10 mm is a change of the radius by 5 mm; a stand-off of 1 mm acts as if R were 1 mm more.</summary>
    [Fact]
    public void Shift_LimitsOnBothSides_OffsetByTheStandOff()
    {
        var plan = Plans.Of(Nest.Vee(Math.PI / 3), 0.080) with { ShiftMetres = 0.010, StandOffMetres = 0.001 };
        var (least, greatest) = Plans.Solved(plan);
        Close.To(0.068, least.DiameterMetres, Micrometre);
        Close.To(0.088, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Shift, Constraint.Shift, 0.010), (least.Constraint, greatest.Constraint, greatest.Limit));
    }

    [Fact]
    public void AStandOffThatIsAShiftAboveTheLimit_IsViolatedAtTheTaughtDiameter()
    {
        var violated = Plans.Violated(Plans.Of(Nest.Vee(Math.PI / 3), 0.080) with { ShiftMetres = 0.0019, StandOffMetres = 0.001 });
        Assert.Equal((Constraint.Shift, 0.0019), (violated.Constraint, violated.Limit));
    }

    /// <summary>In a 90° vee the contacts are R from the apex along the faces: from 4 mm to 80 mm.</summary>
    [Fact]
    public void FaceExtents_LimitBothEnds()
    {
        var (least, greatest) = Plans.Solved(Plans.Of(Nest.Vee(Math.PI / 2, 0.004, 0.080), 0.080));
        Close.To(0.008, least.DiameterMetres, Micrometre);
        Close.To(0.160, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.FaceExtent, Constraint.FaceExtent), (least.Constraint, greatest.Constraint));
        Assert.Equal((0.004, 0.080), (least.Limit, greatest.Limit));
    }

    /// <summary>7,850 kg/m³ · π/4 · D² · 0.1 m = 8 kg.</summary>
    [Fact]
    public void Payload_LimitsAbove()
    {
        var plan = Plans.Bed with { Density = 7850, StockLengthMetres = 0.1, PayloadKilograms = 8 };
        var greatest = Plans.Solved(plan).Greatest;
        Close.To(Math.Sqrt(8 / (7850 * Math.PI / 4 * 0.1)), greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Payload, 8.0), (greatest.Constraint, greatest.Limit));
    }

    [Fact]
    public void Payload_CountsOnlyWhenDensityAndLengthAreStated()
    {
        var plan = Plans.Bed with { PayloadKilograms = 0.001 };
        Assert.Equal(Constraint.Reach, Plans.Solved(plan with { Density = 7850 }).Greatest.Constraint);
        Assert.Equal(Constraint.Reach, Plans.Solved(plan with { StockLengthMetres = 1 }).Greatest.Constraint);
        Assert.Equal(Constraint.Payload, Plans.Violated(plan with { Density = 7850, StockLengthMetres = 1 }).Constraint);
    }

    [Fact]
    public void StatedRange_IsMetExactly()
    {
        var (least, greatest) = Plans.Solved(Plans.Bed with { StatedMetres = (0.060, 0.100) });
        Assert.Equal((0.060, Constraint.StatedRange, 0.060), (least.DiameterMetres, least.Constraint, least.Limit));
        Assert.Equal((0.100, Constraint.StatedRange, 0.100), (greatest.DiameterMetres, greatest.Constraint, greatest.Limit));
    }

    [Fact]
    public void Stroke_LimitsOpenAboveAndClosedBelow()
    {
        var plan = Plans.Bed with { Gripper = Plans.ThreeJaws with { StrokeMetres = (0.070, 0.115) }, LocatorTopMetres = 0.01 };
        plan = plan with { Gripper = plan.Gripper! with { JawTipHeightMetres = 0.01 } };
        var (least, greatest) = Plans.Solved(plan);
        Close.To(0.070, least.DiameterMetres, Micrometre);
        Close.To(0.103, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Stroke, Constraint.Stroke, 0.070, 0.115), (least.Constraint, greatest.Constraint, least.Limit, greatest.Limit));
        plan = plan with { Gripper = plan.Gripper! with { OpenByMetres = null, OpenToMetres = 0.090 } };
        greatest = Plans.Solved(plan).Greatest;
        Close.To(0.090, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Stroke, 0.090), (greatest.Constraint, greatest.Limit));
    }

    /// <summary>Stock 125 mm from stock keeps 2 mm up to 123 mm.</summary>
    [Fact]
    public void NeighboursKeepTheirGap_UpToThePitchMinusTheGap()
    {
        var plan = Plans.Bed with { Columns = 6, Rows = 4, ColumnStep = new(0.125, 0), RowStep = new(0, 0.130), GapMetres = 0.002 };
        var greatest = Plans.Solved(plan).Greatest;
        Close.To(0.123, greatest.DiameterMetres, Micrometre);
        Assert.Equal((Constraint.Gap, 0.002), (greatest.Constraint, greatest.Limit));
        Assert.Equal(
            (PartyKind.Stock, PartyKind.Stock, 1, 0),
            (greatest.Gap!.Value.Mine.Kind, greatest.Gap.Value.Theirs.Kind, Math.Abs(greatest.Gap.Value.Theirs.Column), greatest.Gap.Value.Theirs.Row));
        Assert.InRange(greatest.Gap.Value.Metres, 0.002 - Micrometre, 0.002);
    }

    /// <summary>Raw stock of 100 mm in the next nest: the centres are at different heights; with v = √((R + r)² − a²), 125² + (v − v′)² = (R + 50)².</summary>
    [Fact]
    public void NeighboursOfAnotherDiameter_AreMetWhereTheyReallyAre()
    {
        var plan = Plans.Bed with { Columns = 2, ColumnStep = new(0.125, 0), NeighbourDiameterMetres = 0.100 };
        var found = Plans.Solved(plan).Greatest;
        var radius = found.DiameterMetres / 2;
        var rise = Height(radius) - Height(0.050);
        Close.To(radius + 0.050, Math.Sqrt((0.125 * 0.125) + (rise * rise)), Micrometre);

        static double Height(double radius) => Math.Sqrt(((radius + 0.006) * (radius + 0.006)) - (0.030 * 0.030));
    }

    /// <summary>A jaw that points straight down under stock of 160 mm, from 0.6 mm above the pins' centres: 30 − 8 − 6 = 16 mm from each pin.</summary>
    [Fact]
    public void AJawBetweenThePins_IsSixteenMillimetresFromEach()
    {
        var gripper = Plans.ThreeJaws with { ClockingRadians = -Math.PI / 2, Jaws = 1, JawThicknessMetres = 0.040 };
        var readings = Gaps.At(Plans.Bed with { Gripper = gripper }, 0.160).Where(gap => gap.Theirs.Kind == PartyKind.Pin && gap.Jaws == Jaws.Closed).ToList();
        Assert.Equal(2, readings.Count);
        Assert.All(readings, gap => Close.To(0.016, gap.Metres, 1e-12));
    }

    /// <summary>Open by 12 mm, the jaws are 6 mm from the stock all around, less the distance that the stand-off lifts the stock.</summary>
    [Fact]
    public void OpenJaws_AreHalfTheOpeningFromTheStock()
    {
        var plan = Plans.Bed with { Gripper = Plans.ThreeJaws };
        var readings = Gaps.At(plan, 0.080).Where(gap => gap.Theirs == new Party(PartyKind.Stock)).ToList();
        Assert.Equal(3, readings.Count);
        Assert.All(readings, gap => Close.To(0.006, gap.Metres, 1e-12));
        Assert.All(readings, gap => Assert.Equal(Jaws.Open, gap.Jaws));

        var lifted = SeatOf.Stock(plan.Nest, 0.0405).Centre - SeatOf.Stock(plan.Nest, 0.040).Centre;
        var up = Gaps.At(plan with { StandOffMetres = 0.0005 }, 0.080).Single(gap => gap.Theirs == new Party(PartyKind.Stock) && gap.Mine.Number == 1);
        Close.To(0.006 + lifted.V, up.Metres, 1e-12);
    }

    /// <summary>A post of 10 mm over the seat: v + R + 5 mm = the post's height, in a 60° vee with v = 2R.</summary>
    [Fact]
    public void AnObstacleOverTheStock_IsTouchedFromBelow()
    {
        var post = new PlanVector(0, 0.170);
        var plan = Plans.Of(Nest.Vee(Math.PI / 3), 0.080) with { Obstacles = [new("post", post, post, 0.010, null)] };
        var greatest = Plans.Solved(plan).Greatest;
        Close.To(0.110, greatest.DiameterMetres, Micrometre);
        Assert.Equal((PartyKind.Obstacle, 1), (greatest.Gap!.Value.Theirs.Kind, greatest.Gap.Value.Theirs.Number));
    }

    /// <summary>The same post is beside the second nest only; the stock of that nest meets it.</summary>
    [Fact]
    public void AnObstacleAtAnotherNest_LimitsThere()
    {
        var post = new PlanVector(1, 0.170);
        var plan =
            Plans.Of(Nest.Vee(Math.PI / 3, 0, 0.2), 0.080) with { Columns = 2, ColumnStep = new(1, 0), Obstacles = [new("post", post, post, 0.010, null)] };
        var greatest = Plans.Solved(plan).Greatest;
        Close.To(0.110, greatest.DiameterMetres, Micrometre);
        Assert.Equal(new Party(PartyKind.Obstacle, 1, -1), greatest.Gap!.Value.Theirs);
    }

    /// <summary>Faces without ends would run through every nest beside their own.</summary>
    [Fact]
    public void Faces_of_other_nests_count_only_when_their_ends_are_stated()
    {
        var endless = Plans.Of(Nest.Vee(Math.PI / 2), 0.080) with { Columns = 3, ColumnStep = new(0.200, 0) };
        var ended = endless with { Nest = Nest.Vee(Math.PI / 2, 0, 0.120) };

        Assert.DoesNotContain(Gaps.At(endless, 0.080), g => g.Theirs.Kind == PartyKind.Face);
        Assert.Contains(Gaps.At(ended, 0.080), g => g.Theirs is { Kind: PartyKind.Face, Column: 1 });
    }
}
