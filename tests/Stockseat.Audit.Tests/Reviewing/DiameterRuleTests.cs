using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>stated-not-measured and far-from-lot.</summary>
public sealed class DiameterRuleTests
{
    [Fact]
    public async Task A_pick_with_a_diameter_other_than_the_measured_one_is_found()
    {
        using var day = await Day.Begin();
        var measured = await day.Measure(82);
        var answer = await day.Locate(83.1);

        day.Review().One(FindingRule.StatedNotMeasured, measured.Serial, answer.Serial)
            .Says(
                "At 08:00:20 UTC controller press-cell stated a diameter of 83.100 mm for a pick from bed (answer 4), while measurement 3 of 08:00:10 UTC "
                    + "said 82.000 mm: 1.100 mm apart.");
    }

    [Fact]
    public async Task A_measurement_from_before_the_window_that_is_still_valid_counts()
    {
        using var day = await Day.Begin();
        var measured = await day.Measure(82);
        day.Pass(TimeSpan.FromHours(1));
        var answer = await day.Locate(90);

        day.Review().One(FindingRule.StatedNotMeasured, measured.Serial, answer.Serial);
    }

    [Theory]
    [InlineData(83, false)] // off by exactly the jump that the review asks about
    [InlineData(81, false)]
    [InlineData(83.001, true)]
    [InlineData(80.999, true)]
    public async Task A_difference_larger_than_the_jump_is_found(double stated, bool found)
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        await day.Locate(stated);

        Assert.Equal(found, day.Review().Findings.Any(f => f.Rule == FindingRule.StatedNotMeasured));
    }

    [Fact]
    public async Task A_program_that_states_the_same_diameter_each_time_gives_one_finding()
    {
        using var day = await Day.Begin();
        var measured = await day.Measure(82, "A");
        var one = await day.Locate(90);
        var two = await day.Locate(90);

        day.Review().One(FindingRule.StatedNotMeasured, measured.Serial, one.Serial, two.Serial)
            .Says($"(answer 4, and again for one more answer, 5), while measurement 3 of lot A of 08:00:10 UTC said 82.000 mm: 8.000 mm apart.");
    }

    [Fact]
    public async Task A_value_within_the_band_of_a_wide_lot_gives_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(78.5, "A", Day.Terms);
        await day.Locate(82);
        day.Review().None(FindingRule.StatedNotMeasured);

        await day.Locate(82.6);
        Assert.Contains(day.Review().Findings, f => f.Rule == FindingRule.StatedNotMeasured);
    }

    [Fact]
    public async Task A_void_measurement_or_a_place_gives_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        await day.Locate(76, purpose: Purpose.Place);
        await day.Emptied();
        await day.Locate(90);
        await day.Measure(82);
        await day.MeasureRefused([800], "A", Day.Terms);
        await day.Locate(90);

        day.Review().None(FindingRule.StatedNotMeasured);
    }

    [Theory]
    [InlineData(40, "fits when the number is taken as a radius: 80.000 mm.")]
    [InlineData(3.15, "fits when the number is taken in inches: 80.010 mm.")]
    [InlineData(800, "fits with the decimal point one place off: 80.000 mm.")]
    public async Task A_refused_push_far_from_its_lot_names_the_slip(double mm, string slip)
    {
        using var day = await Day.Begin();
        var refused = await day.MeasureRefused([mm], "A", Day.Terms);

        day.Review().One(FindingRule.FarFromLot, refused.Serial).Says(
            $"At 08:00:10 UTC station gauge pushed {mm:0.000} mm for bed, and it was refused: it is outside lot A, which has 78.000 mm to 82.000 mm; it ", slip,
            "No other measurement of it followed.");
    }

    [Fact]
    public async Task The_good_push_that_followed_is_mentioned()
    {
        using var day = await Day.Begin();
        var refused = await day.MeasureRefused([84], "A", Day.Terms);
        var good = await day.Measure(81, "A", Day.Terms);

        day.Review().One(FindingRule.FarFromLot, refused.Serial, good.Serial)
            .Says($"outside lot A, which has 78.000 mm to 82.000 mm. Measurement {good.Serial} of 08:00:20 UTC, 81.000 mm of lot A, followed.");
    }

    [Fact]
    public async Task Readings_that_disagree_are_reported_with_their_spread()
    {
        using var day = await Day.Begin();
        var refused = await day.MeasureRefused([80, 80.05, 80.4], agreementMm: 0.1);

        day.Review().One(FindingRule.FarFromLot, refused.Serial)
            .Says("pushed 3 readings from 80.000 mm to 80.400 mm", "its readings are 0.400 mm apart, and 0.100 mm is allowed");
    }

    [Fact]
    public async Task A_measurement_far_from_the_previous_one_of_a_lot_with_only_a_name_is_found()
    {
        using var day = await Day.Begin();
        var one = await day.Measure(80, "A");
        var two = await day.Measure(81.2, "A");

        day.Review().One(FindingRule.FarFromLot, one.Serial, two.Serial)
            .Says(
                "measured 81.200 mm for bed (entry 4), 1.200 mm from the 80.000 mm of measurement 3 of the same lot A; the lot states no tolerance, and 1.000 "
                    + "mm was asked about.");
    }

    [Fact]
    public async Task A_measurement_of_another_lot_without_a_lot_near_or_within_the_tolerance_gives_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(80, "A");
        await day.Measure(81, "A");
        await day.Measure(90, "B");
        await day.Measure(70);
        await day.Measure(78, "C", Day.Terms);
        await day.Measure(82, "C", Day.Terms);

        day.Review().None(FindingRule.FarFromLot);
    }
}
