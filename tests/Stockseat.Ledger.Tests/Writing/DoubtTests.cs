using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>When a push could not be decided, no older diameter is used in its place.</summary>
public sealed class DoubtTests
{
    private static readonly Refusal Busy = Refusal.Of(Reason.TooBusy, "too many are waiting");
    private static readonly Caller Gauge = new("gauge", "demo", "127.0.0.1:9", "5", "push-1");

    [Fact]
    public async Task A_push_that_was_refused_without_a_decision_voids_the_measurement_before_the_next_answer()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));

        ledger.Writer.Doubt(new MeasureAsk(Gauge, "bed") { ReadingsMetres = [0.08], Terms = null }, Busy);
        var refused = await ledger.Do<RefusalBody>(Support.Ledger.Locate(null));

        Assert.Equal("measurement-missing", refused.Reason);
        var late = (RefusalBody)ledger.Rows().Single(r => r.Serial == refused.Serial - 1).ReadBody()!;
        Assert.Equal(("measured", "too-busy", true, "gauge", "5", null), (late.Asked, late.Reason, late.Undecided, late.Client, late.Tag, late.Request));
        Assert.Equal([0.08], late.Readings!);
        Assert.Contains($"entry {late.Serial}, too-busy", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_refusal_is_also_written_when_nobody_asks()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        var measured = await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));

        ledger.Writer.Doubt(new MeasureAsk(Gauge, "bed") { ReadingsMetres = [], Terms = null }, Busy);
        await ledger.Reaches(measured.Serial + 1);

        Assert.Null(ledger.Writer.Situation.Find("bed")!.Measurement);
        Assert.Null(((RefusalBody)ledger.Rows()[^1].ReadBody()!).Readings);
    }

    [Fact]
    public async Task A_newer_push_is_used()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        ledger.Writer.Doubt(new MeasureAsk(Gauge, "bed") { ReadingsMetres = [0.08], Terms = null }, Busy);
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.085));

        Assert.Equal(0.085, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(null))).Diameter);
        Assert.DoesNotContain(ledger.Rows(), r => r.Kind == Kinds.Refusal);
    }

    [Fact]
    public async Task Readings_from_before_a_refused_push_are_not_used_in_its_place()
    {
        var time = new SteppedTime();
        using var ledger = await new Support.Ledger(time).Begin();
        var before = time.GetTimestamp();
        time.Advance(TimeSpan.FromSeconds(2));
        ledger.Writer.Doubt(new MeasureAsk(Gauge, "bed") { ReadingsMetres = [0.08], Terms = null }, Busy);

        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09) with { Since = 2, FirstAt = before });
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);

        // A push that is sent again has the same first reading as when it was refused: it settles its own doubt.
        var again = Support.Ledger.Measured(0.085) with { Since = 2, FirstAt = time.GetTimestamp() };
        time.Advance(TimeSpan.FromSeconds(2));
        ledger.Writer.Doubt(again, Busy);
        Assert.Equal(2, (await ledger.Do<MeasurementBody>(again)).Waited);
        Assert.Equal(0.085, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(null))).Diameter);
    }

    [Fact]
    public async Task A_push_that_waited_for_the_writer_is_as_old_as_its_arrival()
    {
        var time = new SteppedTime();
        using var ledger = await new Support.Ledger(time).Begin();
        var first = time.GetTimestamp();
        time.Advance(TimeSpan.FromSeconds(90));

        var measured = await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09) with { Since = 2, FirstAt = first });
        time.Advance(TimeSpan.FromSeconds(10));

        Assert.Equal((90, 2), (measured.Waited, measured.Since));
        Assert.Equal(100, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(null))).Age);
        Assert.Null((await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09))).Waited);
    }

    [Fact]
    public async Task A_push_without_permission_leaves_no_doubt_and_settles_none()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        var denied = Support.Ledger.Measured(0.07) with { Denied = Refusal.Of(Reason.NotPermitted, "no") };
        ledger.Writer.Doubt(denied, Busy);
        Assert.Equal(0.09, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(null))).Diameter);

        ledger.Writer.Doubt(Support.Ledger.Measured(0.08), Busy);
        await ledger.Do<RefusalBody>(denied);
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
    }

    [Fact]
    public async Task Emptied_nests_count_even_when_that_could_not_be_written_at_first()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));

        ledger.Writer.Doubt(new EmptiedAsk(Gauge, "bed"), Busy);
        var refused = await ledger.Do<RefusalBody>(Support.Ledger.Locate(null));

        Assert.Equal("measurement-missing", refused.Reason);
        Assert.Equal("too-busy", ((EmptiedBody)ledger.Rows().Single(r => r.Serial == refused.Serial - 1).ReadBody()!).Undecided);
    }

    [Fact]
    public async Task A_refusal_during_an_outage_is_recorded_when_it_ends_and_survives_a_start_and_a_roll()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        using (var other = ledger.Other())
        {
            Support.Ledger.Sql(other, "BEGIN IMMEDIATE");
            Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(Support.Ledger.Measured(0.08, request: "once")));
            Support.Ledger.Sql(other, "ROLLBACK");
        }

        await ledger.Reaches(4);
        Assert.Equal(("refusal", true), (ledger.Rows()[^1].Kind, ((RefusalBody)ledger.Rows()[^1].ReadBody()!).Undecided));
        await ledger.Again();
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
        await ledger.Roll();
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);

        // The push's request id is free: the push can be sent again with it.
        Assert.Equal(0.08, (await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.08, request: "once"))).Diameter);
        var replayed = ledger.Replay();
        Assert.True(replayed.Differences.Count == 0, string.Join("; ", replayed.Differences));
    }

    [Fact]
    public async Task With_more_fixtures_than_can_be_tracked_the_measurements_of_all_are_in_doubt()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        using (var other = ledger.Other())
        {
            Support.Ledger.Sql(other, "BEGIN IMMEDIATE");
            await ledger.Refused(Support.Ledger.Locate()); // Without a ledger nobody knows which of the names are fixtures.
            for (var i = 0; i <= 1000; i++)
            {
                ledger.Writer.Doubt(new MeasureAsk(Gauge, $"x{i}") { ReadingsMetres = [], Terms = null }, Busy);
            }

            Support.Ledger.Sql(other, "ROLLBACK");
        }

        await ledger.Reaches(4);
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.085));
        Assert.Equal(0.085, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(null))).Diameter);
    }
}
