using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Measured;

public sealed class MeasurementTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Good());

    [Fact]
    public void Without_a_measurement_the_refusal_is_measurement_missing() =>
        Assert.Contains("nothing was measured", _bench.Refused(Reason.MeasurementMissing).Text, StringComparison.Ordinal);

    [Fact]
    public void The_freshest_measurement_wins_and_is_named_with_its_age()
    {
        _bench.Measure(0.09);
        var second = _bench.Do(Bench.Push([0.081], lot: "A1077"));
        _bench.Now += TimeSpan.FromSeconds(12.5);

        var answer = _bench.Locate();

        Assert.Equal((0.081, second.Serial, 12.5, "A1077"), (answer.Diameter, answer.Measurement, answer.Age, answer.Lot));
    }

    [Fact]
    public void A_stated_diameter_takes_precedence_over_the_measurement()
    {
        _bench.Measure(0.09);

        Assert.Equal((0.081, (long?)null), (_bench.Locate(0.081).Diameter, _bench.Locate(0.081).Measurement));
    }

    [Fact]
    public void The_last_fresh_instant_is_served_and_the_next_one_is_stale()
    {
        var pushed = _bench.Measure(0.09);
        _bench.Now += TimeSpan.FromHours(8);
        _bench.Locate();
        _bench.Now += TimeSpan.FromMilliseconds(1);

        var body = _bench.Refused(Reason.MeasurementStale);

        Assert.Equal(("28800.001", "28800"), (body.Limits!["age_seconds"], body.Limits["limit_seconds"]));
        Assert.Equal((pushed.Serial, 0.09), (body.Measurement, body.Diameter));
    }

    [Fact]
    public void After_a_small_step_back_of_the_clock_the_age_is_not_below_zero()
    {
        _bench.Measure(0.09);
        _bench.Now -= TimeSpan.FromSeconds(1);

        Assert.Equal(0, _bench.Locate().Age);
    }

    [Fact]
    public void After_a_large_step_back_of_the_clock_the_measurement_is_stale()
    {
        _bench.Measure(0.09);
        _bench.Now -= TimeSpan.FromSeconds(1.001);

        Assert.Equal("-1.001", _bench.Refused(Reason.MeasurementStale).Limits!["age_seconds"]);
    }

    [Theory]
    [InlineData("A1077", "")]
    [InlineData("A1077", "B2")]
    [InlineData("a1077", "A1077")]
    public void A_measurement_of_another_lot_is_refused(string asked, string measured)
    {
        _bench.Do(Bench.Push([0.09], lot: measured.Length == 0 ? null : measured));

        var body = _bench.Refused(Reason.MeasurementOutsideLot, lot: asked);

        Assert.Equal((measured, asked, asked), (body.Limits!["lot"], body.Limits["asked"], body.Lot));
    }

    [Fact]
    public void A_measurement_of_the_lot_is_served()
    {
        _bench.Do(Bench.Push([0.09], lot: "A1077"));

        Assert.Equal("A1077", _bench.Locate(lot: "A1077").Lot);
    }

    [Fact]
    public void Emptied_voids_the_measurement_until_the_next_one()
    {
        _bench.Measure(0.09);
        var emptied = Assert.IsType<EmptiedBody>(_bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1")));

        Assert.Contains($"entry {emptied.Serial}", _bench.Refused(Reason.MeasurementMissing).Text, StringComparison.Ordinal);
        _bench.Measure(0.085);
        Assert.Equal(0.085, _bench.Locate().Diameter);
    }

    [Fact]
    public void Emptied_for_an_unknown_fixture_is_refused() => _bench.Refused(Reason.FixtureUnknown, new EmptiedAsk(Bench.Controller, "pinbed-9"));

    [Fact]
    public void A_refused_push_voids_the_older_measurement()
    {
        _bench.Measure(0.09);
        var refused = _bench.Refused(Reason.DiameterBelowEnvelope, Bench.Push([0.0035]));

        Assert.Contains($"entry {refused.Serial}, diameter-below-envelope", _bench.Refused(Reason.MeasurementMissing).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_refused_locate_voids_nothing()
    {
        _bench.Measure(0.09);
        _bench.Refused(Reason.DiameterBelowEnvelope, 0.0035);

        Assert.Equal(0.09, _bench.Locate().Diameter);
    }

    [Fact]
    public void The_diameter_is_the_mean_of_the_readings()
    {
        var body = Assert.IsType<MeasurementBody>(_bench.Measure(0.09240, 0.09246, 0.09243));

        Assert.Equal(0.09243, body.Diameter, 1e-15);
        Assert.Equal([0.09240, 0.09246, 0.09243], body.Readings);
        Assert.Equal(("bench-2", "mm", 28800.0, 1), (body.Gauge, body.Unit, body.FreshFor, body.Revision));
        Assert.Equal(body.Diameter, _bench.Locate().Diameter);
    }

    [Fact]
    public void A_single_reading_is_recorded_bit_for_bit() =>
        Assert.Equal(0.1 + 0.2 - 0.21, Assert.IsType<MeasurementBody>(_bench.Measure(0.1 + 0.2 - 0.21)).Diameter);

    [Fact]
    public void Readings_that_disagree_are_refused_and_void_the_measurement()
    {
        _bench.Measure(0.09);

        var body = _bench.Refused(Reason.ReadingsDisagree, Bench.Push([0.0924, 0.0925, 0.0926]));

        Assert.Equal(("0.000200", "0.000100"), (body.Limits!["spread_metres"], body.Limits["limit_metres"]));
        Assert.Equal([0.0924, 0.0925, 0.0926], body.Readings!);
        _bench.Refused(Reason.MeasurementMissing);
    }

    [Theory]
    [InlineData(0.09, 0.0918, true)] // 2 % of the mean are 1.818 mm.
    [InlineData(0.09, 0.0919, false)]
    [InlineData(0.0905, 0.0950, false)] // Digits in the wrong order.
    public void Readings_of_a_gauge_without_agreement_may_spread_by_a_share_of_the_diameter(double one, double other, bool accepted)
    {
        var body = _bench.Do(Bench.Push([one, other], agreement: null));

        Assert.Equal(accepted, body is MeasurementBody);
        Assert.Equal(accepted ? null : (int)Reason.ReadingsDisagree, (body as RefusalBody)?.Number);
    }

    [Fact]
    public void Of_small_stock_they_may_spread_by_a_millimetre_and_older_ledgers_did_not_judge_them()
    {
        Assert.Equal(0.001, Disagreement.Unstated(0.01));
        Assert.Equal(0.0018, Disagreement.Unstated(0.09), 1e-15);
        _bench.Rules = 1;
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09, 0.095], agreement: null)));
        _bench.Rules = EntryBody.CurrentVersion;
        Assert.StartsWith("2 readings spread by 5.000 mm; gauge bench-2 states no Agreement, so they may spread by 1.850 mm",
            Assert.IsType<RefusalBody>(_bench.Do(Bench.Push([0.09, 0.095], agreement: null))).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_gauge_is_refused_and_voids_the_measurement_before_it()
    {
        _bench.Measure(0.09);

        _bench.Refused(Reason.GaugeUnknown, new MeasureAsk(Bench.Controller, "pinbed-1") { ReadingsMetres = [0.08], Gauge = "bench-9", Terms = null });

        _bench.Refused(Reason.MeasurementMissing);
    }

    [Fact]
    public void Readings_exactly_at_the_gauge_s_agreement_are_accepted_at_every_diameter()
    {
        for (var i = 6000; i < 10_000; i++)
        {
            // Text to metres as a gauge station sends it; exactly 0.10 mm apart in decimal.
            double[] readings = [Metres(i), Metres(i + 10 > 10_000 ? i - 10 : i + 10)];
            Assert.IsType<MeasurementBody>(_bench.Measure(readings));
        }

        static double Metres(int hundredths) => double.Parse($"{hundredths}E-5", System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public void The_mean_of_equal_readings_is_the_reading()
    {
        Assert.Equal(0.1, Assert.IsType<MeasurementBody>(_bench.Measure(0.1, 0.1, 0.1)).Diameter);
    }

    [Fact]
    public void A_push_for_an_unknown_fixture_is_refused_and_makes_no_fixture()
    {
        _bench.Refused(Reason.FixtureUnknown,
            new MeasureAsk(Bench.Controller, "pinbed-9") { ReadingsMetres = [0.08], Terms = new(null, null, TimeSpan.FromHours(1)) });

        Assert.Null(_bench.Situation.Find("pinbed-9"));
    }

    [Fact]
    public void A_measurement_from_before_the_first_adoption_stays_valid_after_it_and_after_a_restart()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good()));
        bench.Measure(0.09);
        bench.Restart();
        bench.Adopt(1);

        Assert.Equal(0.09, bench.Locate().Diameter);
    }

    [Fact]
    public void Restarts_keep_what_was_measured_and_what_is_void()
    {
        _bench.Measure(0.09);
        _bench.Restart();
        Assert.Equal(0.09, _bench.Locate().Diameter);

        _bench.Refused(Reason.DiameterBelowEnvelope, Bench.Push([0.0035]));
        _bench.Restart();
        _bench.Refused(Reason.MeasurementMissing);
    }
}
