using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Stock;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Reasons;

/// <summary>Refusals' texts have one unit, that of the display, and the asked value as it was sent.</summary>
public sealed class ShownUnitTests
{
    private static readonly LotTerms H11 = new LotDescription { Nominal = 0.0925, Tolerance = "h11" }.Resolve(out _)!;
    private readonly Bench _bench = Bench.Serving(Revisions.Good(limits: """{ "diameter": ["60 mm", "100 mm"] }"""));

    [Fact]
    public void A_diameter_outside_the_envelope()
    {
        Assert.StartsWith(
            "a diameter of 4.5276 in is too large for revision 1 of pinbed-1, which holds 2.3622 to 3.9370 in for a pick: limits.diameter states 3.937 in",
            Refused(Reason.DiameterAboveEnvelope, Ask(0.115)).Text, StringComparison.Ordinal);
        Assert.StartsWith("a diameter of 115mm (4.5276 in) is too large", Refused(Reason.DiameterAboveEnvelope, Ask(0.115, "115mm")).Text,
            StringComparison.Ordinal);
        Assert.StartsWith("a diameter of 4.5in is too large", Refused(Reason.DiameterAboveEnvelope, Ask(0.1143, "4.5in")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_diameter_that_is_off_by_less_than_the_digits_show_gets_more_digits() => Assert.Contains(
        "a diameter of 3.93702 in is too large for revision 1 of pinbed-1, which holds 2.3622 to 3.93701 in for a pick",
        Refused(Reason.DiameterAboveEnvelope, Ask(0.1000003)).Text, StringComparison.Ordinal);

    [Fact]
    public void A_diameter_outside_its_lot_with_the_slip_that_explains_it() => Assert.StartsWith(
        "the measurement, 46.2mm (1.8189 in), is 1.81417 in below lot A1077, which has 3.63307 to 3.64173 in (h11); the number fits lot A1077 when it is "
        + "taken as a radius, for a diameter of 3.6378 in; ",
        Refused(Reason.MeasurementOutsideLot, Bench.Push([0.0462], "A1077", terms: H11) with { ReadingsSent = ["46.2mm"] }).Text,
        StringComparison.Ordinal);

    [Fact]
    public void Readings_that_disagree() => Assert.StartsWith(
        "3 readings spread by 0.0079 in; gauge bench-2 has an Agreement of 0.0039 in; reading 2, 92.60mm (3.6457 in), stands out; ",
        Refused(Reason.ReadingsDisagree, Bench.Push([0.0924, 0.0926, 0.09241]) with { ReadingsSent = ["92.40mm", "92.60mm", "92.41mm"] }).Text,
        StringComparison.Ordinal);

    [Fact]
    public void What_was_sent_is_kept_and_numbers_for_machines_stay_in_metres()
    {
        var body = Refused(Reason.DiameterAboveEnvelope, Ask(0.115, "115mm"));

        Assert.Equal(["115mm"], body.Sent);
        Assert.Equal(("0.115000", "0.100000"), (body.Limits!["diameter_metres"], body.Limits["end_metres"]));
        Assert.Null(Refused(Reason.DiameterAboveEnvelope, Ask(0.115)).Sent);
    }

    private RefusalBody Refused(Reason reason, Answers.Asking.Ask ask) => _bench.Refused(reason, ask with { Shown = LengthUnit.Inch });

    private static LocateAsk Ask(double diameter, string? sent = null) =>
        new(Bench.Controller, "pinbed-1") { DiameterMetres = diameter, DiameterSent = sent };
}
