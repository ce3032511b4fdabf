using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Measured;

public sealed class LotStillLoadedTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void Another_lot_is_refused_while_an_answer_of_the_lot_before_counts_and_neither_is_picked_then()
    {
        Push("A1");
        _bench.Locate();

        var refused = _bench.Refused(Reason.LotStillLoaded, Bench.Push([0.0902], lot: "B2"));

        Assert.Equal(("A1", "B2"), (refused.Limits!["loaded"], refused.Limits["lot"]));
        _bench.Refused(Reason.MeasurementMissing);
        _bench.Restart();
        _bench.Refused(Reason.LotStillLoaded, Bench.Push([0.0902], lot: "B2"));
    }

    [Fact]
    public void After_emptied_it_is_taken()
    {
        Push("A1");
        _bench.Locate();
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));

        Push("B2");
    }

    [Fact]
    public void Before_any_answer_and_of_the_same_lot_it_is_taken()
    {
        Push("A1");
        Push("B2");
        _bench.Locate();
        Push("B2");
        Assert.IsType<MeasurementBody>(_bench.Measure(0.0924)); // of no lot
    }

    [Fact]
    public void By_the_rules_of_version_1_it_was_taken()
    {
        _bench.Rules = 1;
        Push("A1");
        _bench.Locate();

        Push("B2");
    }

    [Fact]
    public void A_place_above_the_raw_stock_is_refused_but_for_what_the_gauge_may_be_off()
    {
        Push("A1");

        _bench.Refused(Reason.DiameterAboveRaw, 0.0925, purpose: Purpose.Place);
        _bench.Locate(0.0924, purpose: Purpose.Place);
        _bench.Do(Bench.Push([0.0924]) with { Terms = new("bench-2", 0.0001, TimeSpan.FromHours(8)) { Limits = new() { LimitsOfError = 0.0002 } } });
        _bench.Locate(0.0925, purpose: Purpose.Place);
        _bench.Refused(Reason.DiameterAboveRaw, 0.0927, purpose: Purpose.Place);
    }

    private void Push(string lot) => Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.0924], lot: lot)));
}
