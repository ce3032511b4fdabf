using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Answers.Tests.Published;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Answers.Tests.Positions;

public class CertaintyTests
{
    private const string Known = """ "uncertainty": { "askedDiameter": "0.5 mm", "teaching": "0.1 mm", "frameAngle": "0.1 deg" }, """;
    private const string Grid = """[ { "direction": "u", "count": 5, "pitch": "100 mm" }, { "direction": "v", "count": 2, "pitch": "120 mm" } ]""";

    private static readonly GaugeLimits Caliper = new() { LimitsOfError = 3e-5, Resolution = 1e-5 };

    [Fact]
    public void Without_stated_uncertainties_the_result_is_not_known_and_never_zero()
    {
        Assert.Null(Bench.Serving(Revisions.Good()).Locate(0.09).Uncertainty);
        Assert.Null(Bench.Serving(Revisions.Good(extra: """ "uncertainty": { "teaching": "0.1 mm" }, """)).Locate(0.09).Uncertainty);
    }

    [Fact]
    public void A_stated_diameter_has_the_uncertainty_for_asked_diameters_and_a_measured_one_that_of_its_gauge()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        var stated = bench.Locate(0.09).Uncertainty!;
        bench.Do(Push([0.09], Caliper));
        var measured = bench.Locate();

        Assert.True(measured.Uncertainty!.Along < stated.Along);
        Assert.Equal((new DiameterFrom { Gauge = "bench-2", Limits = Caliper, Agreement = 1e-4 }, null), (measured.From, bench.Locate(0.09).From));
    }

    [Fact]
    public void A_measurement_without_limits_of_error_has_the_uncertainty_for_asked_diameters()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        var stated = bench.Locate(0.09).Uncertainty;
        bench.Do(Push([0.09], new() { Resolution = 1e-5 }));

        Assert.Equal(stated, bench.Locate().Uncertainty);
    }

    [Fact]
    public void The_origin_carries_the_worst_nest_s_uncertainty_and_another_nest_its_own()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known, layout: Grid));
        var origin = bench.Locate(0.09).Uncertainty!;
        var all = (from column in Enumerable.Range(0, 5) from row in Enumerable.Range(0, 2) select bench.Locate(0.09, column: column, row: row).Uncertainty!)
            .ToArray();

        Assert.Equal((all.Max(u => u.Along), all.Max(u => u.Across)), (origin.AlongWorst, origin.AcrossWorst));
        Assert.True(origin.AlongWorst > origin.Along);
        Assert.All(all.Skip(1), u => Assert.Equal((null, null), (u.AlongWorst, u.AcrossWorst)));
    }

    [Fact]
    public void An_uncertainty_above_the_limit_is_refused_with_its_numbers_at_the_nest_that_counts()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known, layout: Grid, limits: """{ "uncertainty": "0.5 mm" }"""));

        var refused = bench.Refused(Reason.UncertaintyAboveLimit, 0.09);

        Assert.Contains("at nest 4,0 of pinbed-1 would be", refused.Text, StringComparison.Ordinal);
        Assert.Contains("most of it from frameAngle; limits.uncertainty of revision 1 is 0.500 mm", refused.Text, StringComparison.Ordinal);
        Assert.Equal(("0.000500", "frameAngle"), (refused.Limits!["limit_metres"], refused.Limits["largest_part"]));
        Assert.Equal(refused.Uncertainty!.AlongWorst!.Value,
            double.Parse(refused.Limits["uncertainty_metres"], System.Globalization.CultureInfo.InvariantCulture), 5e-7);
        Assert.NotNull(bench.Locate(0.09, row: 1).Uncertainty); // nearer, and certain enough
    }

    [Theory]
    [InlineData("", "the revision states no uncertainty")]
    [InlineData(""" "uncertainty": { "teaching": "0.1 mm" }, """, "askedDiameter is not stated")]
    public void With_a_limit_an_unknown_uncertainty_is_refused(string extra, string why)
    {
        var bench = Bench.Serving(Revisions.Good(extra: extra, limits: """{ "uncertainty": "0.5 mm" }"""));

        Assert.Contains(why, bench.Refused(Reason.UncertaintyAboveLimit, 0.09).Text, StringComparison.Ordinal);
        bench.Do(Push([0.09], Caliper));
        if (extra.Length > 0)
        {
            Assert.NotNull(bench.Locate().Uncertainty); // a gauge that states its limits is enough
        }
    }

    [Fact]
    public void Ten_readings_give_a_repeatability_and_nine_do_not()
    {
        var revision = Revisions.Good(extra: Known).Reading.Revision!;
        DiameterFrom From(int readings) => new() { Gauge = "g", Limits = Caliper, Readings = readings, Deviation = 4e-5, Agreement = 1e-4 };

        Assert.Null(Certainty.Diameter(revision, From(9))!.Value.Repeatability);
        Assert.Equal(4e-5 / Math.Sqrt(10), Certainty.Diameter(revision, From(10))!.Value.Repeatability!.Value.Standard, 1e-15);
        Assert.Equal(1e-5 / Math.Sqrt(4),
            Certainty.Diameter(revision, From(4) with { Limits = Caliper with { Repeatability = 1e-5 } })!.Value.Repeatability!.Value.Standard, 1e-15);
    }

    /// <summary>The guide's temperatures pushed as readings: what they differ from 100 degrees, a degree as a tenth of a millimetre, about 100 mm.</summary>
    [Fact]
    public void The_guides_twenty_readings_have_the_published_deviation_and_that_of_their_mean()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        bench.Do(Bench.Push([.. GuideTemperatures.Values.Select(t => 0.1 + ((t - 100) / 10_000))], agreement: null));

        var from = bench.Situation.Find("pinbed-1")!.Measurement!.From!;
        var mean = Certainty.Diameter(bench.Situation.Find("pinbed-1")!.InForce!, from)!.Value.Repeatability!.Value;

        Assert.Equal(GuideTemperatures.Printed.Deviation, 10_000 * from.Deviation!.Value, 0.005);
        Assert.Equal(GuideTemperatures.Printed.OfMean, 10_000 * mean.Standard, 0.005);
    }

    /// <summary>Readings that no gauge with limits judges may lie far apart: what they say themselves of their mean is not less than nothing.</summary>
    [Fact]
    public void The_spread_of_readings_counts_where_no_gauge_states_its_limits()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        var stated = bench.Locate(0.09).Uncertainty!;
        bench.Do(Bench.Push([0.0905, 0.0895], agreement: null) with { Gauge = null, Terms = new(null, null, TimeSpan.FromHours(8)) });

        var answer = bench.Locate();

        Assert.Equal(0.09, answer.Diameter, 1e-12);
        Assert.True(answer.Uncertainty!.Along > 2 * 0.5 * 0.0005 * 1, "u of the mean is 0.5 mm, and the seat moves by more than half of a diameter's error");
        Assert.True(answer.Uncertainty.Along > stated.Along);
        Assert.Contains(AnswerBudgets.Of(bench.Situation.Find("pinbed-1")!.InForce!, answer)[0].Budget.Lines,
            l => l.Component == Stockseat.Seating.Uncertainty.Component.Repeatability);
    }

    [Fact]
    public void The_spread_of_readings_counts_where_a_gauge_states_no_agreement()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        var push = Bench.Push([0.0905, 0.0895],
            agreement: null) with { Terms = new GaugeTerms("bench-2", null, TimeSpan.FromHours(8)) { Limits = Caliper with { Repeatability = 1e-5 } } };
        bench.Do(push);
        bench.Restart();

        Assert.True(bench.Locate().Uncertainty!.Along > 2 * 0.5 * 0.0005);
        bench.Do(push with { ReadingsMetres = [0.09, 0.09] });
        Assert.Equal(1e-5 / Math.Sqrt(2), Certainty.Diameter(bench.Situation.Find("pinbed-1")!.InForce!,
            bench.Locate().From)!.Value.Repeatability!.Value.Standard, 1e-15);
    }

    [Fact]
    public void An_answer_that_states_no_uncertainty_has_no_budget()
    {
        var revision = Revisions.Good(extra: Known).Reading.Revision!;
        var answer = Bench.Serving(Revisions.Good(extra: Known)).Locate(0.09);

        Assert.NotEmpty(AnswerBudgets.Of(revision, answer));
        Assert.Empty(AnswerBudgets.Of(revision, answer with { Uncertainty = null })); // a body of an earlier version
    }

    [Fact]
    public void An_unstated_taught_diameter_is_reported_even_with_the_same_gauge()
    {
        var revision = Revisions.Good(extra: Known, taught: "\"measuredWith\": \"bench-2\",").Reading.Revision!;
        var from = new DiameterFrom { Gauge = "bench-2", Limits = Caliper };

        Assert.True(Certainty.Diameter(revision, from)!.Value.SameGauge);
        Assert.Contains("taughtDiameter", NestBudget.Of(revision, 0.09, 0, from, 0, 0)[0].NotStated);
    }

    [Fact]
    public void Readings_further_apart_than_the_gauge_explains_count_with_their_spread()
    {
        var revision = Revisions.Good(extra: Known).Reading.Revision!;
        Input? Repeats(double deviation) =>
            Certainty.Diameter(revision, new() { Gauge = "g", Limits = Caliper, Agreement = 1e-4, Readings = 2, Deviation = deviation })!.Value.Repeatability;

        Assert.Null(Repeats(1e-4 / Math.Sqrt(2)));
        Assert.Equal(3e-4 / Math.Sqrt(2), Repeats(3e-4)!.Value.Standard, 1e-15);
    }

    [Fact]
    public void A_place_that_is_read_back_from_the_ledger_has_the_same_uncertainty()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Known, layout: Grid));
        bench.Do(Push([0.09, 0.09002, 0.09001], Caliper));
        var answer = bench.Locate();
        bench.Restart();
        var again = Assert.IsType<AnswerBody>(BodyJson.Read(Kinds.Answer, Bench.Bytes(answer)));

        Assert.Equal(answer.Uncertainty, bench.Locate().Uncertainty);
        Assert.Equal((answer.Uncertainty, answer.From), (again.Uncertainty, again.From));
        var revision = bench.Situation.Find("pinbed-1")!.InForce!;
        var budgets = AnswerBudgets.Of(revision, again);
        Assert.Equal([(0, 0), (4, 0)], budgets.Select(b => (b.Column, b.Row)));
        Assert.Equal(answer.Uncertainty!.Along, budgets[0].Budget.Expanded.Along);
        Assert.Equal(answer.Uncertainty.AlongWorst, budgets[1].Budget.Expanded.Along);
    }

    [Fact]
    public void Uncertainties_that_are_not_stated_are_listed()
    {
        var revision = Revisions.Good(extra: """ "uncertainty": { "askedDiameter": "0.5 mm", "teaching": "0.1 mm", "lean": "1 deg" }, """).Reading.Revision!;

        Assert.Equal(
            ["taughtDiameter", "roundness", "locatorDiameter", "locatorPosition", "seating", "leanHeight (so lean contributes nothing)", "frame", "frameAngle",
                "robot"],
            NestBudget.Of(revision, 0.09, 0, null, 0, 0)[0].NotStated);
    }

    private static MeasureAsk Push(double[] readings, GaugeLimits limits) =>
        Bench.Push(readings) with { Terms = new GaugeTerms("bench-2", 1e-4, TimeSpan.FromHours(8)) { Limits = limits } };
}
