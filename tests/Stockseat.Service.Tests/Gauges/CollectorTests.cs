using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Service.Tests.Gauges;

public class CollectorTests
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    [Fact]
    public async Task Readings_are_pushed_together_in_the_name_of_the_port()
    {
        await using var port = new PipedPort();
        await port.Send("L7 92,40\nL7 92,42\n");

        var ask = Assert.Single(port.Pushes).Ask;
        Assert.Equal([0.0924, 0.09242], ask.ReadingsMetres);
        Assert.Equal(("bench-gauge", null, "127.0.0.1:5"), (ask.Caller.Client, ask.Caller.Cell, ask.Caller.Address));
        Assert.Equal(("pinbed-1", "bench-2", "mm", "L7"), (ask.Fixture, ask.Gauge, ask.Unit, ask.Lot));
        port.Accept(0);
        Assert.Equal((2, 1, 0), (port.Count("readings"), port.Count("measurements"), port.Count("refused")));
        Assert.True(port.Port.Idle.IsCompleted);
    }

    [Fact]
    public async Task After_a_measurement_the_collecting_starts_again()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Accept(0);
        await port.Send("92,44\n");
        Assert.Single(port.Pushes);

        await port.Send("92,46\n");
        Assert.Equal([0.09244, 0.09246], port.Pushes[1].Ask.ReadingsMetres);
        port.Accept(1);
    }

    [Fact]
    public async Task Of_readings_that_disagree_the_newest_is_kept()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n95,10\n");
        port.Refuse(0, Reason.ReadingsDisagree);
        Assert.Equal((0, 1), (port.Count("measurements"), port.Count("refused")));
        Assert.StartsWith("readings-disagree: ", port.LastCause, StringComparison.Ordinal);

        await port.Send("95,12\n");
        Assert.Equal([0.0951, 0.09512], port.Pushes[1].Ask.ReadingsMetres);
        port.Accept(1);
    }

    [Fact]
    public async Task Of_readings_that_disagree_none_is_kept_when_all_waiting_ones_were_cleared_meanwhile()
    {
        await using var port = new PipedPort(PipedPort.Usual with { Apart = TimeSpan.FromMilliseconds(200) });
        await port.Send("92,40\n");
        port.Time.Advance(TimeSpan.FromSeconds(1));
        await port.Send("95,10\n");
        port.Time.Advance(TimeSpan.FromSeconds(1));
        Assert.Single(port.Pushes);
        await port.Send("95,20\n95,30\n"); // From a buffer: the waiting readings are not used any more.
        port.Refuse(0, Reason.ReadingsDisagree);
        port.Time.Advance(TimeSpan.FromSeconds(1));
        await port.Send("95,12\n");
        port.Time.Advance(TimeSpan.FromSeconds(1));

        Assert.Single(port.Pushes);
    }

    [Fact]
    public async Task Of_readings_that_are_refused_for_another_reason_none_is_kept()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Refuse(0, Reason.GaugeUnknown);
        await port.Send("92,44\n");

        Assert.Single(port.Pushes);
    }

    [Theory]
    [InlineData(Reason.LedgerUnavailable)]
    [InlineData(Reason.TooBusy)]
    public async Task Readings_that_the_ledger_did_not_take_are_pushed_again(Reason reason)
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Refuse(0, reason);
        Assert.Single(port.Pushes);
        port.Time.Advance(TimeSpan.FromSeconds(1));

        Assert.Equal([0.0924, 0.09242], port.Pushes[1].Ask.ReadingsMetres);
        port.Accept(1);
        Assert.Equal((1, 0), (port.Count("measurements"), port.Count("expired")));
        Assert.True(port.Port.Idle.IsCompleted);
    }

    [Fact]
    public async Task Readings_that_the_ledger_did_not_take_in_time_are_not_used()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Time.Advance(Minute);
        port.Refuse(0, Reason.LedgerUnavailable);
        port.Time.Advance(TimeSpan.FromSeconds(1));

        Assert.Single(port.Pushes);
        Assert.Equal((0, 1), (port.Count("measurements"), port.Count("expired")));
        Assert.True(port.Port.Idle.IsCompleted);
    }

    [Fact]
    public async Task A_push_also_a_repeated_one_says_when_its_first_reading_came_and_after_which_entry()
    {
        await using var port = new PipedPort { Serial = 41 };
        var first = port.Time.GetTimestamp();
        await port.Send("92,40\n");
        port.Serial = 43;
        port.Time.Advance(TimeSpan.FromSeconds(7));
        await port.Send("92,42\n");
        Assert.Equal((41, first), (port.Pushes[0].Ask.Since, port.Pushes[0].Ask.FirstAt));

        port.Refuse(0, Reason.LedgerUnavailable);
        port.Time.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal((41, first), (port.Pushes[1].Ask.Since, port.Pushes[1].Ask.FirstAt));
        port.Accept(1);
    }

    [Fact]
    public async Task A_reading_from_before_the_nests_were_emptied_is_not_combined_with_one_from_after()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n");
        port.Situation = Situation.Empty.Apply(new EmptiedBody { Fixture = "pinbed-1", Serial = 2, At = "2026-11-25T08:00:00.000000Z" });
        port.Serial = 2;
        await port.Send("92,42\n");
        Assert.Empty(port.Pushes);
        Assert.Equal(1, port.Count("expired"));

        await port.Send("92,44\n");
        Assert.Equal([0.09242, 0.09244], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Fact]
    public async Task Of_readings_that_the_decision_found_outdated_the_newest_is_kept()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Refuse(0, Reason.MeasurementStale);
        await port.Send("92,44\n");

        Assert.Equal([0.09242, 0.09244], port.Pushes[1].Ask.ReadingsMetres);
        port.Accept(1);
    }

    [Fact]
    public async Task Readings_that_come_too_far_apart_make_no_measurement()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n");
        port.Time.Advance(Minute + TimeSpan.FromTicks(1));
        await port.Send("92,42\n");
        Assert.Empty(port.Pushes);
        Assert.Equal(1, port.Count("expired"));

        port.Time.Advance(Minute);
        await port.Send("92,44\n");
        Assert.Equal([0.09242, 0.09244], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Fact]
    public async Task Readings_of_two_lots_make_no_measurement()
    {
        await using var port = new PipedPort();
        await port.Send("L7 92,40\nL8 92,40\n");
        Assert.Empty(port.Pushes);

        await port.Send("L8 92,42\n");
        Assert.Equal(("L8", 1), (Assert.Single(port.Pushes).Ask.Lot, port.Count("expired")));
        port.Accept(0);
    }

    [Fact]
    public async Task While_a_push_is_under_way_the_next_readings_wait_and_keep_their_times()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,42\n95,10\n");
        port.Time.Advance(Minute + TimeSpan.FromTicks(1));
        await port.Send("96,10\n96,12\n");
        Assert.Single(port.Pushes);

        port.Accept(0);
        Assert.Equal([0.0961, 0.09612], port.Pushes[1].Ask.ReadingsMetres);
        Assert.Equal(1, port.Count("expired"));
        port.Accept(1);
    }

    [Fact]
    public async Task The_number_of_waiting_readings_is_limited()
    {
        await using var port = new PipedPort();
        for (var i = 0; i < 103; i++)
        {
            await port.Send("92,40\n");
            port.Time.Advance(TimeSpan.FromMilliseconds(60));
        }

        Assert.Single(port.Pushes);
        Assert.Equal((103, 1), (port.Count("readings"), port.Count("overrun")));
    }

    [Fact]
    public async Task One_reading_makes_a_measurement_where_one_is_configured()
    {
        await using var port = new PipedPort(PipedPort.Usual with { Readings = 1 });
        await port.Send("92,40\n");

        Assert.Equal([0.0924], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Fact]
    public async Task A_push_that_fails_is_logged_once_and_the_port_continues()
    {
        var port = new PipedPort();
        await port.Send("92,40\n92,42\n");
        port.Pushes[0].Done.SetException(new InvalidOperationException("planted"));
        Assert.Contains("planted", Assert.Single(port.Log.Errors), StringComparison.Ordinal);
        await port.Send("92,40\n92,42\n");

        Assert.Equal(2, port.Pushes.Count);
        await Assert.ThrowsAnyAsync<Xunit.Sdk.XunitException>(async () => await port.DisposeAsync());
    }
}
