using Stockseat.Fixtures.Planning;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Tests.Planning;

/// <summary>By hand from sin θ = (s/2)/(R + r), v = √((R + r)² − (s/2)²), 1/cos θ for pins, v = R/sin α and 1/sin α for a vee.</summary>
public sealed class NestPlannerTests
{
    private const double Degree = Math.PI / 180;

    private static readonly PlanningQuestion Question = new() { RangeMetres = (0.06, 0.1) };

    [Fact]
    public void Pins_are_judged_by_their_closed_forms()
    {
        // 10 mm pins 42 mm apart under 60 mm and 95 mm: sin θ = 21/35 and 21/52.5, so cos θ = 0.8 at one end and √0.84 at the other.
        var judged = Judge(Question with { RangeMetres = (0.06, 0.095), PinMetres = [0.01], SpacingMetres = [0.042] });

        Assert.True(judged.Holds);
        Assert.Equal(1, judged.Share);
        Near((Math.Asin(0.6), Math.Asin(0.4)), judged.HalfAngleRadians);
        Near((Math.Asin(0.6), Math.Asin(0.4)), judged.HeldRadians);
        Near((1.25, 1 / Math.Sqrt(0.84)), judged.Sensitivity);
        Assert.Equal((0.0525 * Math.Sqrt(0.84)) - 0.028, judged.ShiftMetres!.Value, 1e-12);
        // asin 0.4 is 23.578 deg, which is 18.578 more than 5; asin 0.6 is 36.870 deg, which is 23.130 less than 60.
        Assert.Equal(Math.Asin(0.4) - (5 * Degree), judged.MarginRadians!.Value, 1e-12);
        Assert.Null(judged.Gap);
        Assert.Null(judged.FaceMetres);
    }

    [Fact]
    public void A_vee_is_judged_by_its_closed_forms()
    {
        var judged = Judge(Question with { VeeRadians = [90 * Degree] });

        Assert.True(judged.Holds);
        Near((45 * Degree, 45 * Degree), judged.HalfAngleRadians);
        Near((Math.Sqrt(2), Math.Sqrt(2)), judged.Sensitivity);
        Assert.Equal(0.02 * Math.Sqrt(2), judged.ShiftMetres!.Value, 1e-12);
        Assert.Equal(15 * Degree, judged.MarginRadians!.Value, 1e-12);
        Assert.Equal((Constraint.Reach, Constraint.Reach), (judged.Envelope!.Least.Constraint, judged.Envelope.Greatest.Constraint));
    }

    [Fact]
    public void A_60_deg_vee_is_exactly_at_the_usual_limit_and_allowed()
    {
        Assert.True(Judge(Question with { VeeRadians = [60 * Degree] }).Holds);
        Assert.False(Judge(Question with { VeeRadians = [59.999 * Degree] }).Holds);
    }

    [Fact]
    public void Two_limits_bound_the_envelope_of_pins()
    {
        // Sensitivity 2 is θ = 60 deg: R + r = s/√3; held by 5 deg: R + r = (s/2)/sin 5 deg.
        var judged = Judge(Question with { PinMetres = [0.01], SpacingMetres = [0.05] });

        Assert.Equal((0.1 / Math.Sqrt(3)) - 0.01, judged.Envelope!.Least.DiameterMetres, 2e-6);
        Assert.Equal(Constraint.Sensitivity, judged.Envelope.Least.Constraint);
        Assert.Equal((0.05 / Math.Sin(5 * Degree)) - 0.01, judged.Envelope.Greatest.DiameterMetres, 2e-6);
        Assert.Equal(Constraint.HeldAngle, judged.Envelope.Greatest.Constraint);
    }

    [Fact]
    public void For_stock_that_drops_the_unknown_values_are_left_out()
    {
        // Equal pins drop at R + r = s/2: here at 65 mm, within the range; sensitivity 2 is reached at 76.603 mm.
        var judged = Judge(Question with { PinMetres = [0.01], SpacingMetres = [0.075] });

        Assert.False(judged.Holds);
        Assert.Null(judged.Sensitivity.From);
        Assert.Null(judged.HalfAngleRadians.From);
        Assert.Null(judged.MarginRadians);
        Assert.Null(judged.ShiftMetres);
        Assert.Equal(1 / Math.Sqrt(1 - Math.Pow(37.5 / 55, 2)), judged.Sensitivity.To!.Value, 1e-12);
        Assert.Equal((0.1 - ((0.15 / Math.Sqrt(3)) - 0.01)) / 0.04, judged.Share, 1e-4);
    }

    [Fact]
    public void Stock_that_drops_in_the_middle_has_no_envelope()
    {
        var judged = Judge(Question with { PinMetres = [0.01], SpacingMetres = [0.095] });

        Assert.Null(judged.Envelope);
        Assert.Equal((0.08, Constraint.NoSeat), (judged.Violated!.DiameterMetres, judged.Violated.Constraint));
        Assert.Equal(0, judged.Share);
    }

    [Fact]
    public void The_best_candidate_comes_first()
    {
        // Margins by hand, in degrees: vee 120: 30 − 5 = 25; pins 40 apart: asin(40/110) − 5 = 16.32; vee 90: 60 − 45 = 15; pins 50 apart: 60 − asin(50/70) =
        // 14.42; pins 25 apart: asin(25/110) − 5 = 8.14. Pins 75 apart drop 60 mm; pins 95 apart drop the middle of the range too.
        var planning = NestPlanner.Judge(
            Question with { PinMetres = [0.01], SpacingMetres = [0.095, 0.075, 0.025, 0.04, 0.05], VeeRadians = [90 * Degree, 120 * Degree] });

        Assert.Equal(5, planning.Holding);
        Assert.Equal([0, 0.04, 0, 0.05, 0.025, 0.075, 0.095], planning.Judged.Select(j => j.Candidate.SpacingMetres));
        Assert.Equal([25, 16.3237, 15, 14.4153, 8.1366], planning.Judged.Take(5).Select(j => Math.Round(j.MarginRadians!.Value / Degree, 4)));
        Assert.Equal(120 * Degree, planning.Judged[0].Candidate.IncludedRadians);
    }

    [Fact]
    public void When_none_fits_the_nearest_comes_first()
    {
        var planning = NestPlanner.Judge(Question with { PinMetres = [0.01], SpacingMetres = [0.08, 0.075, 0.07] });

        Assert.Equal(0, planning.Holding);
        Assert.Equal([0.07, 0.075, 0.08], planning.Judged.Select(j => j.Candidate.SpacingMetres));
        Assert.True(planning.Judged[0].Share > planning.Judged[1].Share && planning.Judged[2].Share == 0);
    }

    [Fact]
    public void Neighbours_limit_the_envelope_by_the_gap()
    {
        // Nests 125 mm apart: two pieces of 100 mm leave 25 mm, and two of 95 mm leave 30 mm.
        var near = Question with { PinMetres = [0.01], SpacingMetres = [0.04], PitchUMetres = 0.125 };
        var holds = Judge(near with { GapMetres = 0.025 });
        var not = Judge(near with { GapMetres = 0.03 });

        Assert.True(holds.Holds);
        Assert.Equal(0.025, holds.Gap!.Value.Reading.Metres, 1e-5);
        Assert.Equal(0.1, holds.Gap.Value.DiameterMetres);
        Assert.Equal((PartyKind.Stock, PartyKind.Stock), (holds.Gap.Value.Reading.Mine.Kind, holds.Gap.Value.Reading.Theirs.Kind));
        Assert.False(not.Holds);
        Assert.Equal(0.095, not.Envelope!.Greatest.DiameterMetres, 2e-6);
        Assert.Equal(Constraint.Gap, not.Envelope.Greatest.Constraint);
        Assert.Equal(PartyKind.Stock, not.Envelope.Greatest.Gap!.Value.Theirs.Kind);
    }

    [Fact]
    public void Neighbours_along_the_seat_axis_count_too()
    {
        var judged = Judge(Question with { PinMetres = [0.01], SpacingMetres = [0.04], PitchUMetres = 0.2, PitchVMetres = 0.13 });

        // Above the stock, at v = √(55² − 20²) = 51.235 mm, are the next nest's pins at ±20, 130: √(20² + 78.765²) − 50 − 5 = 26.265 mm.
        Assert.Equal(Math.Sqrt(400 + Math.Pow(130 - Math.Sqrt(2625), 2)) - 55, 1000 * judged.Gap!.Value.Reading.Metres, 1e-3);
        Assert.Equal(
            (PartyKind.Pin, 0, 1), (judged.Gap.Value.Reading.Theirs.Kind, judged.Gap.Value.Reading.Theirs.Column, judged.Gap.Value.Reading.Theirs.Row));
    }

    [Fact]
    public void The_stroke_limits_the_envelope()
    {
        // The gripper opens 12 mm beyond the stock and can open to 115 mm: 103 mm.
        var judged = Judge(Question with { RangeMetres = (0.06, 0.11), PinMetres = [0.01], SpacingMetres = [0.04], Gripper = Three });

        Assert.False(judged.Holds);
        Assert.Equal(0.103, judged.Envelope!.Greatest.DiameterMetres, 2e-6);
        Assert.Equal(Constraint.Stroke, judged.Envelope.Greatest.Constraint);
    }

    [Fact]
    public void A_vee_that_jaws_can_meet_ends_beyond_the_contact_of_the_largest_stock()
    {
        // In a 90 deg vee, 100 mm stock has its contact 50 mm from the apex.
        Assert.Null(Judge(Question with { VeeRadians = [90 * Degree] }).FaceMetres);
        Assert.Equal(0.055, Judge(Question with { VeeRadians = [90 * Degree], PitchUMetres = 0.2 }).FaceMetres!.Value, 1e-12);
        var stated = Judge(Question with { VeeRadians = [90 * Degree], PitchUMetres = 0.2, FaceMetres = 0.045 });
        Assert.Equal(0.045, stated.FaceMetres);
        Assert.Equal(0.09, stated.Envelope!.Greatest.DiameterMetres, 2e-6);
        Assert.Equal(Constraint.FaceExtent, stated.Envelope.Greatest.Constraint);
    }

    [Fact]
    public void The_smallest_gap_is_also_found_between_the_ends()
    {
        // The tip of a long jaw passes the next nest's pins. Compared with the gaps at 101 diameters, over many layouts; some have their smallest gap in
        // between.
        var dips = 0;
        for (var (u, v) = (0.055, 0.05); v < 0.09; (u, v) = u < 0.09 ? (u + 0.003, v) : (0.055, v + 0.005))
        {
            var gripper = Three with
            {
                Jaws = 1, JawWidthMetres = 0.004, JawThicknessMetres = 0.06, ClockingRadians = 45 * Degree, OpenByMetres = 0.001, StrokeMetres = (0.001, 1),
            };
            var found =
                Judge(new() { RangeMetres = (0.02, 0.032), PinMetres = [0.01], SpacingMetres = [0.02], PitchUMetres = u, PitchVMetres = v, Gripper = gripper })
                    .Gap!.Value;
            var plan = new Plan
            {
                Nest = Seating.Locators.Nest.Pins(0.02, 0.01), Taught = default, TaughtDiameterMetres = 0.026, Columns = 2, Rows = 2, ColumnStep = new(u, 0),
                RowStep = new(0, v), Gripper = gripper,
            };
            var scanned = Enumerable.Range(0, 101).Select(i => Others(plan, 0.02 + (0.012 * i / 100)).Metres).ToArray();
            if (scanned.Min() < 1e-5)
            {
                continue;
            }

            // Between two diameters of the scan a gap can fall by a little more than 0.12 mm.
            Assert.InRange(found.Reading.Metres, scanned.Min() - 3e-4, scanned.Min() + 1e-5);
            dips += scanned.Min() < Math.Min(scanned[0], scanned[^1]) - 1e-4
                && scanned.Min() < Math.Min(scanned[25], Math.Min(scanned[50], scanned[75])) - 2e-5 ? 1 : 0;
        }

        Assert.True(dips > 0, "no layout had its smallest gap between the samples");
    }

    [Fact]
    public void Only_the_first_candidates_get_their_smallest_gap_but_all_get_their_rank()
    {
        var question = Question with { PinMetres = [0.01], SpacingMetres = [0.03, 0.04, 0.05], PitchUMetres = 0.2 };
        var (one, all) = (NestPlanner.Judge(question, 1), NestPlanner.Judge(question));

        Assert.Equal([true, false, false], one.Judged.Select(j => j.Gap is not null));
        Assert.All(all.Judged, j => Assert.NotNull(j.Gap));
        Assert.Equal(all.Judged.Select(j => j.Candidate), one.Judged.Select(j => j.Candidate));
    }

    [Fact]
    public void All_stand_offs_are_taken_into_account()
    {
        var question = Question with { PinMetres = [0.01], SpacingMetres = [0.04], PitchUMetres = 0.2, Gripper = Three };
        var (least, most, both) = (Judge(question), Judge(question with { StandOffMetres = [0.01] }), Judge(question with { StandOffMetres = [0, 0.01] }));

        Assert.NotEqual(least.Gap!.Value.Reading.Metres, most.Gap!.Value.Reading.Metres);
        Assert.Equal(Math.Min(least.Gap.Value.Reading.Metres, most.Gap.Value.Reading.Metres), both.Gap!.Value.Reading.Metres);
    }

    private static Gripper Three => new()
    {
        Jaws = 3, JawWidthMetres = 0.016, JawThicknessMetres = 0.012, ClockingRadians = 30 * Degree, OpenByMetres = 0.012, StrokeMetres = (0.04, 0.115),
    };

    /// <summary>The smallest gap, except that between open jaws and their own stock.</summary>
    private static GapReading Others(Plan plan, double diameterMetres) =>
        Gaps.At(plan, diameterMetres).First(g => g.Theirs is not { Kind: PartyKind.Stock, Column: 0, Row: 0 });

    private static JudgedCandidate Judge(PlanningQuestion question) => Assert.Single(NestPlanner.Judge(question).Judged);

    private static void Near((double From, double To) expected, (double? From, double? To) actual)
    {
        Assert.Equal(expected.From, actual.From!.Value, 1e-12);
        Assert.Equal(expected.To, actual.To!.Value, 1e-12);
    }
}
