using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>
/// Clients are served in turn, so an ask can be decided before an earlier ask. A push is then not used after an ask that should have cleared it.
/// </summary>
public sealed class OvertakenTests
{
    private static readonly Caller Other = new("other", "demo", "127.0.0.1:8");

    [Fact]
    public async Task A_push_that_another_client_s_emptied_overtook_is_stale()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        _ = Enumerable.Range(0, 3).Select(_ => ledger.Writer.Append(Support.Ledger.Locate(client: "gauge"))).ToList();
        var pushed = ledger.Writer.Append(Support.Ledger.Measured(0.09));
        var emptied = ledger.Writer.Append(new EmptiedAsk(Other, "bed"));
        gate.Open();

        var (push, empty) = (await Support.Ledger.Soon(pushed), await Support.Ledger.Soon(emptied));

        Assert.True(empty.Entry!.Serial < push.Entry!.Serial, "the emptied should have overtaken the push");
        var refused = Assert.IsType<RefusalBody>(push.Entry);
        Assert.Equal(("measurement-stale", empty.Entry.Serial - 1), (refused.Reason, refused.Since));
    }

    [Fact]
    public async Task A_push_after_an_emptied_of_the_same_client_is_used_though_neither_was_answered_yet()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        _ = ledger.Writer.Append(new EmptiedAsk(new("gauge", null, null), "bed"));
        var pushed = ledger.Writer.Append(Support.Ledger.Measured(0.09));
        gate.Open();

        Assert.IsType<MeasurementBody>((await Support.Ledger.Soon(pushed)).Entry);
    }

    [Fact]
    public async Task An_ask_from_before_a_push_that_is_refused_is_answered()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        var before = ledger.Writer.Append(Support.Ledger.Locate(null));
        ledger.Writer.Doubt(Support.Ledger.Measured(0.08), Refusal.Of(Reason.TooBusy, "busy"));
        var after = ledger.Writer.Append(Support.Ledger.Locate(null));
        gate.Open();

        Assert.Equal(0.09, Assert.IsType<AnswerBody>((await Support.Ledger.Soon(before)).Entry).Diameter);
        Assert.Equal("measurement-missing", Assert.IsType<RefusalBody>((await Support.Ledger.Soon(after)).Entry).Reason);
    }

    [Fact]
    public async Task A_push_for_which_the_queue_has_no_room_voids_the_measurement()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        var waiting = new List<Task<AppendOutcome>>();
        for (var next = ledger.Writer.Append(Support.Ledger.Locate(client: "gauge")); !next.IsCompleted; next = ledger.Writer.Append(
            Support.Ledger.Locate(client: "gauge")))
        {
            waiting.Add(next);
        }

        Assert.Equal(Reason.TooBusy, (await Support.Ledger.Soon(ledger.Writer.Append(Support.Ledger.Measured(0.08)))).Refusal!.Reason);
        gate.Open();
        await Support.Ledger.Soon(Task.WhenAll(waiting));

        Assert.Contains("too-busy", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Text, StringComparison.Ordinal);
    }
}
