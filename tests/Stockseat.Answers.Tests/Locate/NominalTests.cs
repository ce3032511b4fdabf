using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Locate;

/// <summary>nominal= and within=: the diameter used has to be the diameter that the program was written for.</summary>
public sealed class NominalTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Theory]
    [InlineData(0.0924, 0.0925, 0.0001, true)]
    [InlineData(0.0926, 0.0925, 0.0001, true)]
    [InlineData(0.0925, 0.0925, 0.0001, true)]
    [InlineData(0.092399, 0.0925, 0.0001, false)]
    [InlineData(0.092601, 0.0925, 0.0001, false)]
    [InlineData(0.08, 0.0925, 0.0001, false)]
    public void The_diameter_used_is_within_the_stated_distance_or_refused(double diameter, double nominal, double within, bool near)
    {
        var body = _bench.Do(Ask(diameter, nominal, within));

        Assert.Equal((near, nominal, within), body switch
        {
            AnswerBody a => (true, a.Nominal, a.Within),
            RefusalBody { Reason: "measurement-outside-lot" } r => (false, r.Nominal, r.Within),
            _ => (!near, 0.0, 0.0),
        });
    }

    [Fact]
    public void A_measurement_is_compared_too_and_the_refusal_says_by_how_much_it_differs()
    {
        _bench.Measure(0.0931);

        var refusal = _bench.Refused(Reason.MeasurementOutsideLot, Ask(null, 0.0925, 0.0004));

        Assert.Equal(
            "measurement 2 of pinbed-1, 93.100 mm, is 0.600 mm from the nominal 92.500 mm; within 0.400 mm was asked for; measure the lot that is in "
            + "the nests", refusal.Text);
        Assert.Equal((2, 0.0931), (refusal.Measurement, refusal.Diameter));
        Assert.Equal(["diameter_metres", "limit_metres", "nominal_metres"], refusal.Limits!.Keys.Order());
        Assert.IsType<AnswerBody>(_bench.Do(Ask(null, 0.0925, 0.0006)));
    }

    private static LocateAsk Ask(double? diameter, double nominal, double within) =>
        new(Bench.Controller, "pinbed-1") { DiameterMetres = diameter, NominalMetres = nominal, WithinMetres = within };
}
