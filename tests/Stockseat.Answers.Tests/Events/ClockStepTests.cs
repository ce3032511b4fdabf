using Stockseat.Answers.Emptied;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Events;

/// <summary>The clock is set while a measurement is valid. The entry that records the clock step decides, not the clock.</summary>
public sealed class ClockStepTests
{
    private static readonly TimeSpan Fresh = TimeSpan.FromHours(8);
    private readonly Bench _bench = Bench.Serving(Revisions.Good());

    [Fact]
    public void A_measurement_from_before_a_step_back_is_not_used_and_the_refusal_says_why()
    {
        var measured = _bench.Measure(0.09);
        var step = _bench.Set(-3600.5);

        var refused = _bench.Refused(Reason.MeasurementStale);

        Assert.Equal(
            $"the clock was set back by 3600.5 s (entry {step.Serial}) after measurement {measured.Serial} of pinbed-1, so its age is not known; it may "
                + "be used for at most 28800 s;"
            + " measure the stock again and ask again",
            refused.Text);
        Assert.Equal(measured.Serial, refused.Measurement);
        Assert.Equal(
            new Dictionary<string, string> { ["clock_back_seconds"] = "3600.5", ["clock_step"] = $"{step.Serial}", ["limit_seconds"] = "28800" },
            refused.Limits);
    }

    [Fact]
    public void The_measurement_is_still_not_used_when_the_clock_has_caught_up_again()
    {
        _bench.Measure(0.09);
        _bench.Set(-3600);
        _bench.Now += TimeSpan.FromHours(2);
        _bench.Refused(Reason.MeasurementStale);
        _bench.Set(3600);

        _bench.Refused(Reason.MeasurementStale);
    }

    [Fact]
    public void A_step_that_was_found_at_a_start_is_described_as_such()
    {
        _bench.Measure(0.09);
        var step = _bench.Set(-120, atStart: true);

        Assert.StartsWith($"at a start the clock was 120 s behind the ledger's last entry (entry {step.Serial}) after ",
            _bench.Refused(Reason.MeasurementStale).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_measurement_from_after_a_step_back_is_used()
    {
        _bench.Measure(0.09);
        _bench.Set(-3600);
        _bench.Measure(0.085);

        Assert.Equal((0.085, 0.0), (_bench.Locate().Diameter, _bench.Locate().Age));
    }

    [Fact]
    public void A_stated_diameter_needs_no_clock()
    {
        _bench.Measure(0.09);
        _bench.Set(-3600);

        Assert.Null(_bench.Locate(0.08).Measurement);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void A_step_forward_makes_the_age_longer_and_the_longer_age_counts(long beyondMicroseconds, bool fresh)
    {
        _bench.Measure(0.09);
        _bench.Set(7 * 3600);
        _bench.Now += TimeSpan.FromHours(1) + TimeSpan.FromMicroseconds(beyondMicroseconds);

        if (fresh)
        {
            Assert.Equal(Fresh.TotalSeconds, _bench.Locate().Age);
        }
        else
        {
            Assert.Equal("28800", _bench.Refused(Reason.MeasurementStale).Limits!["limit_seconds"]);
        }
    }

    [Fact]
    public void An_age_is_never_negative()
    {
        _bench.Measure(0.09);
        _bench.Now -= TimeSpan.FromSeconds(0.9); // too little to count as a step

        Assert.Equal(0.0, _bench.Locate().Age);
    }

    [Fact]
    public void Folder_changes_adoptions_and_measurements_keep_what_is_known_of_the_clock()
    {
        _bench.Measure(0.09);
        var step = _bench.Set(-60);
        _bench.ReadFolders(Revisions.Folder(Revisions.Good()));
        _bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "pins" });
        _bench.Do(new ReleaseAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "done", Of = "setter" });

        Assert.Equal(new StepBack(step.Serial, 60, false), _bench.Situation.StepBack);
        Assert.Equal(new StepBack(step.Serial, 60, false), _bench.Situation.WithFolders([]).StepBack);
        _bench.Refused(Reason.MeasurementStale);
    }

    [Fact]
    public void Restarts_keep_what_is_known_of_the_clock()
    {
        _bench.Measure(0.09);
        _bench.Set(-3600);
        _bench.Set(1800);
        _bench.Restart();
        _bench.Refused(Reason.MeasurementStale);

        _bench.Measure(0.085);
        _bench.Restart();
        Assert.Equal(0.085, _bench.Locate().Diameter);
    }

    [Fact]
    public void A_missing_measurement_says_that_the_nests_were_emptied()
    {
        _bench.Measure(0.09);
        _bench.Set(-3600);
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));

        _bench.Refused(Reason.MeasurementMissing);
    }
}
