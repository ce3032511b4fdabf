using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Lots;

public sealed class LotTests
{
    private static readonly LotTerms H11 = new LotDescription { Nominal = 0.0925, Tolerance = "h11" }.Resolve(out _)!;
    private static readonly LotTerms Round = new LotDescription { Nominal = 0.09, Plus = 0.0008, Minus = 0.0008, OutOfRound = 0.0006 }.Resolve(out _)!;
    private readonly Bench _bench = Bench.Serving(Revisions.Good());

    [Theory]
    [InlineData(0.09228)]
    [InlineData(0.0924)]
    [InlineData(0.0925)]
    public void A_measurement_of_the_lot_is_recorded_with_the_lot_s_terms(double diameter)
    {
        var body = Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([diameter], "A1077", terms: H11)));

        Assert.Equal(("A1077", 0.0925, "h11", 0, 0.00022, null),
            (body.Lot, body.LotTerms!.Nominal, body.LotTerms.Tolerance, body.LotTerms.Plus, body.LotTerms.Minus, body.LotTerms.OutOfRound));
        Assert.Contains("\"lot\":\"A1077\",\"lotTerms\":{\"nominal\":0.0925,\"tolerance\":\"h11\",\"plus\":0,\"minus\":0.00022}",
            System.Text.Encoding.UTF8.GetString(Bench.Bytes(body)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0922799, "92.2799 mm, is 0.0001 mm below lot A1077")]
    [InlineData(0.0926, "92.600 mm, is 0.100 mm above lot A1077")]
    public void A_measurement_outside_the_lot_is_refused_with_the_distance(double diameter, string said)
    {
        var body = _bench.Refused(Reason.MeasurementOutsideLot, Bench.Push([diameter], "A1077", terms: H11));

        Assert.Equal($"the measurement, {said}, which has 92.280 to 92.500 mm (h11); measure the lot that is in the nests", body.Text);
        Assert.Equal(("0.092500", "0.092280", "0.092500", "A1077", false),
            (body.Limits!["nominal_metres"], body.Limits["least_metres"], body.Limits["greatest_metres"], body.Limits["lot"], body.Limits.ContainsKey("slip")));
        Assert.Equal(("A1077", H11), (body.Lot, body.LotTerms));
    }

    [Theory]
    [InlineData(0.003638, "inch-for-millimetre", "0.0924052", "in inches: 92.405 mm")]
    [InlineData(2.347, "millimetre-for-inch", "0.092401575", "in millimetres: 92.402 mm")]
    [InlineData(0.0462, "radius-for-diameter", "0.092400", "as a radius, for a diameter of 92.400 mm")]
    [InlineData(0.00924, "factor-of-ten", "0.092400", "with its point one place to the right: 92.400 mm")]
    [InlineData(0.924, "factor-of-ten", "0.092400", "with its point one place to the left: 92.400 mm")]
    [InlineData(0.003606, "inch-for-millimetre", "0.0915924", "in inches: 91.592 mm")] // outside the lot too, but within 1 % of its nominal
    public void The_slip_that_would_explain_a_value_is_named(double diameter, string slip, string metres, string said)
    {
        var body = _bench.Refused(Reason.MeasurementOutsideLot, Bench.Push([diameter], "A1077", terms: H11));

        Assert.Contains($"; the number fits lot A1077 when it is taken {said}; measure", body.Text, StringComparison.Ordinal);
        Assert.Equal((slip, metres), (body.Limits!["slip"], body.Limits["slip_metres"]));
        Assert.DoesNotContain('=', body.Text);
    }

    [Theory]
    [InlineData(0.1848)] // twice the diameter: nobody reads a value so
    [InlineData(0.0036)] // as inches 1.2 % below
    [InlineData(0.0935)]
    [InlineData(0.924e-3)]
    public void For_a_value_that_no_slip_explains_no_slip_is_named(double diameter) =>
        Assert.False(_bench.Refused(Reason.MeasurementOutsideLot, Bench.Push([diameter], "A1077", terms: H11)).Limits!.ContainsKey("slip"));

    [Fact]
    public void A_value_that_misses_the_nominal_names_its_slip_too()
    {
        var body = _bench.Refused(Reason.MeasurementOutsideLot, Ask(0.0462) with { NominalMetres = 0.0925, WithinMetres = 0.0004 });

        Assert.Equal(
            "the stated diameter, 46.200 mm, is 46.300 mm from the nominal 92.500 mm; within 0.400 mm was asked for; the number fits the nominal when "
            + "it is taken as a radius, for a diameter of 92.400 mm; measure the lot that is in the nests", body.Text);
        Assert.Equal("radius-for-diameter", body.Limits!["slip"]);
    }

    [Fact]
    public void An_unknown_lot_is_refused_and_voids_the_measurement()
    {
        _bench.Measure(0.09);

        var body = _bench.Refused(Reason.LotUnknown, Bench.Push([0.09], "B7") with { LotTerms = null });

        Assert.Equal(("there is no lot B7; use a lot of the configuration, or describe this lot", "B7", null), (body.Text, body.Lot, body.LotTerms));
        _bench.Refused(Reason.MeasurementMissing);
    }

    [Theory]
    [InlineData("fixture", Reason.FixtureUnknown)]
    [InlineData("gauge", Reason.GaugeUnknown)]
    [InlineData("lot", Reason.LotUnknown)]
    [InlineData("readings", Reason.ReadingsDisagree)]
    [InlineData("outside", Reason.MeasurementOutsideLot)]
    [InlineData("envelope", Reason.DiameterBelowEnvelope)]
    public void The_first_thing_that_is_wrong_is_reported(string first, Reason reason)
    {
        string[] order = ["fixture", "gauge", "lot", "readings", "outside"];
        var at = Array.IndexOf(order, first) is var i and >= 0 ? i : order.Length;
        var ask = Bench.Push(at <= 3 ? [0.0035, 0.3] : [0.0035], "L", terms: at <= 2 ? null : at <= 4 ? Round : new());
        ask = ask with { Fixture = at == 0 ? "pinbed-9" : "pinbed-1", Terms = at <= 1 ? null : ask.Terms, LotTerms = at <= 2 ? null : ask.LotTerms };

        _bench.Refused(reason, ask);
    }

    [Fact]
    public void Readings_may_spread_by_the_gauge_s_agreement_plus_the_lot_s_out_of_round()
    {
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.0897, 0.0904], "B2", terms: Round)));

        var body = _bench.Refused(Reason.ReadingsDisagree, Bench.Push([0.0897, 0.090401], "B2", terms: Round));

        Assert.Equal(
            "2 readings spread by 0.701 mm; gauge bench-2 has an Agreement of 0.100 mm and lot B2 may be 0.600 mm out of round, together 0.700 mm; clean "
            + "stock and gauge, and measure again", body.Text);
        Assert.Equal("0.000700", body.Limits!["limit_metres"]);
        Assert.False(body.Limits.ContainsKey("reading"));
    }

    [Fact]
    public void The_limits_for_the_readings_are_recorded_so_that_they_can_be_judged_again()
    {
        Assert.Equal(0.0001, Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09, 0.09005]))).Agreement);
        Assert.Equal(0.0001, _bench.Refused(Reason.ReadingsDisagree, Bench.Push([0.09, 0.0902])).Agreement);
        Assert.Null(Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09, 0.0902], agreement: null))).Agreement);
        Assert.Null(_bench.Refused(Reason.GaugeUnknown, Bench.Push([0.09]) with { Terms = null }).Agreement);
    }

    [Theory]
    [InlineData(new[] { 0.0924, 0.0926, 0.09241 }, "2", "0.092600", "92.600 mm")]
    [InlineData(new[] { 0.0920, 0.0924, 0.09241, 0.09242 }, "1", "0.092000", "92.000 mm")]
    [InlineData(new[] { 0.0924, 0.0925, 0.0926 }, null, null, null)] // both equally far from the middle
    public void The_reading_that_stands_out_is_named(double[] readings, string? number, string? metres, string? told)
    {
        var body = _bench.Refused(Reason.ReadingsDisagree, Bench.Push(readings));

        Assert.Equal((number, metres), (body.Limits!.GetValueOrDefault("reading"), body.Limits!.GetValueOrDefault("reading_metres")));
        Assert.Equal(number is not null, body.Text.Contains($"; reading {number}, {told}, stands out;", StringComparison.Ordinal));
    }

    [Fact]
    public void A_stated_diameter_of_the_lot_is_answered_with_the_lot_s_terms()
    {
        var answer = Assert.IsType<AnswerBody>(_bench.Do(Ask(0.0924) with { Lot = "A1077", LotTerms = H11 }));

        Assert.Equal(("A1077", H11, null), (answer.Lot, answer.LotTerms, answer.Measurement));
    }

    [Fact]
    public void A_stated_diameter_outside_the_lot_is_refused_with_its_slip()
    {
        var body = _bench.Refused(Reason.MeasurementOutsideLot, Ask(0.0462) with { Lot = "A1077", LotTerms = H11 });

        Assert.StartsWith("the stated diameter, 46.200 mm, is 46.080 mm below lot A1077, which has 92.280 to 92.500 mm (h11); the number fits ", body.Text,
            StringComparison.Ordinal);
        Assert.Equal(H11, body.LotTerms);
    }

    [Fact]
    public void Whether_a_stated_diameter_belongs_to_a_lot_with_only_a_name_can_not_be_known() => Assert.Equal(
        "lot C3 has no nominal and no tolerance, so nobody can know whether a stated diameter belongs to it; use a lot of the configuration, or describe "
            + "this lot",
        _bench.Refused(Reason.LotUnknown, Ask(0.0924) with { Lot = "C3", LotTerms = new() }).Text);

    [Fact]
    public void A_stated_diameter_of_an_unknown_lot_is_refused() => _bench.Refused(Reason.LotUnknown, Ask(0.0924) with { Lot = "B7" });

    [Fact]
    public void A_measurement_is_judged_by_the_lot_s_terms_as_they_are_now()
    {
        _bench.Do(Bench.Push([0.0924], "L"));
        Assert.IsType<AnswerBody>(_bench.Do(Ask(null) with { Lot = "L", LotTerms = H11 }));

        var body = _bench.Refused(Reason.MeasurementOutsideLot, Ask(null) with { Lot = "L", LotTerms = Round });

        Assert.StartsWith("measurement 2 of pinbed-1, 92.400 mm, is 1.600 mm above lot L, which has 89.200 to 90.800 mm; ", body.Text,
            StringComparison.Ordinal);
        _bench.Refused(Reason.LotUnknown, Ask(null) with { Lot = "L" });
        Assert.Null(_bench.Locate().LotTerms);
    }

    [Fact]
    public void A_described_lot_is_known_until_it_is_described_again()
    {
        _bench.Do(Describe("D4", H11));
        _bench.Refused(Reason.MeasurementOutsideLot, Bench.Push([0.09], "D4") with { LotTerms = null });
        var again = Assert.IsType<LotDescribedBody>(_bench.Do(Describe("D4", Round)));
        _bench.Restart();

        var body = Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09], "D4") with { LotTerms = null }));

        Assert.Equal(Round, body.LotTerms);
        Assert.Equal(new(Round, again.Serial), _bench.Situation.Lots["D4"]);
    }

    [Fact]
    public void A_lot_of_the_configuration_takes_precedence_over_a_description()
    {
        _bench.Do(Describe("D4", H11));

        Assert.Equal(Round, Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09], "D4", terms: Round))).LotTerms);
    }

    [Fact]
    public void A_lot_of_the_configuration_can_not_be_described()
    {
        var body = _bench.Refused(Reason.ValueMalformed, Describe("A1077", Round) with { Configured = true });

        Assert.Equal("lot A1077 is described in the configuration; change it there, under Lots, and restart the service", body.Text);
        Assert.Equal(("A1077", Round), (body.Lot, body.LotTerms));
        Assert.Empty(_bench.Situation.Lots);
    }

    private static DescribeLotAsk Describe(string lot, LotTerms terms) => new(Bench.Controller, lot) { Terms = terms, Configured = false };

    private static LocateAsk Ask(double? diameter) => new(Bench.Controller, "pinbed-1") { DiameterMetres = diameter };
}
