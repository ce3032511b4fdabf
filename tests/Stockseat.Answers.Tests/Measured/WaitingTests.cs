using Stockseat.Answers.Adopt;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Tests.Measured;

/// <summary>Readings that had to wait are never used for stock that came into the nests meanwhile.</summary>
public sealed class WaitingTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Good(), Revisions.Good(2));

    [Fact]
    public void Readings_from_before_the_nests_were_emptied_are_stale()
    {
        var since = _bench.Entries[^1].Serial;
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));

        var refused = _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09]) with { Since = since, Waited = 5 });

        Assert.Contains($"before entry {since + 1}", refused.Text, StringComparison.Ordinal);
        Assert.Equal((since, 5.0, (long?)null), (refused.Since, refused.Waited, refused.Measurement));
        _bench.Refused(Reason.MeasurementMissing);
        Assert.Equal(0.09, ((MeasurementBody)_bench.Do(Bench.Push([0.09]) with { Since = since + 1, Waited = 1 })).Diameter);
    }

    [Fact]
    public void Readings_from_before_a_hold_or_an_adoption_are_stale_also_after_the_release()
    {
        var since = _bench.Entries[^1].Serial;
        _bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "pins" });
        _bench.Do(new ReleaseAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "done", Of = "setter" });
        _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09]) with { Since = since, Waited = 1 });
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09]) with { Since = _bench.Entries[^1].Serial, Waited = 1 }));

        var before = _bench.Entries[^1].Serial;
        Assert.IsType<RevisionAdoptedBody>(_bench.Adopt(2));
        _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09]) with { Since = before, Waited = 1 });
    }

    [Fact]
    public void Readings_from_before_their_lot_was_described_are_stale()
    {
        var since = _bench.Entries[^1].Serial;
        _bench.Do(new DescribeLotAsk(Bench.Controller, "A1") { Terms = new() { Nominal = 0.09, Plus = 0.001, Minus = 0.001 }, Configured = false });

        _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09], lot: "A1") with { Since = since, Waited = 1 });
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09], lot: "B2") with { Since = since, Waited = 1 }));
    }

    [Fact]
    public void A_stale_push_voids_what_was_measured_before_it()
    {
        _bench.Measure(0.08);
        var since = _bench.Entries[^1].Serial;
        _bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "pins" });
        _bench.Do(new ReleaseAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "done", Of = "setter" });
        _bench.Now += TimeSpan.FromSeconds(10);

        _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09]) with { Since = since, Waited = 5 });

        _bench.Refused(Reason.MeasurementMissing);
    }

    [Fact]
    public void A_push_of_readings_older_than_those_of_the_measurement_changes_nothing()
    {
        _bench.Now += TimeSpan.FromSeconds(10);
        var newer = _bench.Measure(0.08);
        _bench.Now += TimeSpan.FromSeconds(1);

        var refused = _bench.Refused(Reason.MeasurementStale, Bench.Push([0.09]) with { Since = 1, Waited = 5 });

        Assert.Equal(newer.Serial, refused.Measurement);
        Assert.Equal((0.08, newer.Serial), (_bench.Locate().Diameter, _bench.Locate().Measurement));
        _bench.Restart();
        Assert.Equal(0.08, _bench.Locate().Diameter);
    }

    [Fact]
    public void A_measurement_ages_from_its_first_reading()
    {
        _bench.Now += TimeSpan.FromSeconds(100);
        var body = (MeasurementBody)_bench.Do(Bench.Push([0.09]) with { Since = 1, Waited = 60.5 });
        Assert.Equal((1L, 60.5), (body.Since, body.Waited));
        _bench.Now += TimeSpan.FromSeconds(2);
        Assert.Equal(62.5, _bench.Locate().Age);

        _bench.Now += TimeSpan.FromHours(8) - TimeSpan.FromSeconds(62.5);
        _bench.Locate();
        _bench.Now += TimeSpan.FromMilliseconds(1);
        Assert.Equal("28800.001", _bench.Refused(Reason.MeasurementStale).Limits!["age_seconds"]);
    }

    [Fact]
    public void After_a_step_back_of_the_clock_no_push_is_called_older()
    {
        _bench.Measure(0.08);
        _bench.Set(-3600);
        _bench.Now += TimeSpan.FromSeconds(1);

        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09]) with { Since = _bench.Entries[^1].Serial, Waited = 0.5 }));
    }

    [Theory]
    [InlineData("1e12")]
    [InlineData("-1")]
    public void A_forged_wait_that_goes_beyond_the_range_of_time_can_not_be_read(string waited)
    {
        var body = (MeasurementBody)_bench.Do(Bench.Push([0.09]) with { Since = 1, Waited = 60.5 });
        var text = System.Text.Encoding.UTF8.GetString(Bench.Bytes(body));
        Assert.NotNull(BodyJson.Read(body.Kind, System.Text.Encoding.UTF8.GetBytes(text)));

        var forged = System.Text.Encoding.UTF8.GetBytes(text.Replace("\"waited\":60.5", $"\"waited\":{waited}", StringComparison.Ordinal));

        Assert.Contains("waited is ", Assert.Throws<System.Text.Json.JsonException>(() => BodyJson.Read(body.Kind, forged)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_push_without_Since_comes_straight_from_its_sender()
    {
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));

        var body = Assert.IsType<MeasurementBody>(_bench.Measure(0.09));

        Assert.Null(body.Since);
        Assert.Null(body.Waited);
        Assert.DoesNotContain("since", System.Text.Encoding.UTF8.GetString(Bench.Bytes(body)), StringComparison.Ordinal);
    }
}
