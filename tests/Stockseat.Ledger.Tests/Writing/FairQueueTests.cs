using Stockseat.Answers.Asking;
using Stockseat.Answers.Events;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>Asks that wait for the writer: each client has a share of the queue, and the clients are taken in turn.</summary>
public sealed class FairQueueTests : IAsyncLifetime
{
    private readonly Support.Ledger _ledger = new();
    private Gate _gate = null!;

    public async ValueTask InitializeAsync()
    {
        await _ledger.Begin();
        _gate = new(_ledger.Writer);
        await _gate.Entered;
    }

    public ValueTask DisposeAsync()
    {
        _gate.Dispose();
        _ledger.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task A_client_that_floods_fills_its_share_and_another_client_is_decided_at_its_first_turn()
    {
        var flood = Flood("flood");
        var good = Ask("good");
        Assert.Equal(AskLimits.All / 4, flood.Count);
        Assert.Equal(
            (Reason.TooBusy, $"client flood has {flood.Count} asks waiting, which is the limit for one client; ask again in a second"),
            await Support.Ledger.Soon(Ask("flood")) is { Refusal: { } refusal } ? (refusal.Reason, refusal.Text) : default);

        _gate.Open();
        var answered = await Support.Ledger.Soon(good);

        await Support.Ledger.Soon(Task.WhenAll(flood));
        Assert.Equal("good", _ledger.Rows().Where(r => r.Kind == "answer").ElementAt(1).Client);
        Assert.Equal(answered.Entry!.Serial, _ledger.Rows().Where(r => r.Kind == "answer").ElementAt(1).Serial);
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task Clients_take_turns_and_each_client_s_asks_keep_their_order()
    {
        var all = "aaaaabbbc".Select((c, i) => Ask(c.ToString(), i)).ToList();

        _gate.Open();
        await Support.Ledger.Soon(Task.WhenAll(all));

        Assert.Equal("a0 b5 c8 a1 b6 a2 b7 a3 a4", string.Join(' ', _ledger.Rows().Where(r => r.Kind == "answer").Select(r => r.Client + r.Tag)));
    }

    [Fact]
    public async Task The_turns_continue_across_batches()
    {
        var a = Flood("a");
        var others = new[] { "b", "b", "c" }.Select(c => Ask(c)).ToList();

        _gate.Open();
        await Support.Ledger.Soon(Task.WhenAll([.. a, .. others]));

        Assert.Equal("abcaba", string.Concat(_ledger.Rows().Where(r => r.Kind == "answer").Take(6).Select(r => r.Client)));
        Assert.Equal(a.Count + others.Count, _ledger.Rows().Count(r => r.Kind == "answer"));
    }

    [Fact]
    public async Task All_clients_together_fill_the_queue_and_the_service_s_own_entries_have_room_and_come_first()
    {
        var all = new[] { "a", "b", "c", "d" }.SelectMany(Flood).ToList();
        Assert.Equal(AskLimits.All, all.Count);
        Assert.Equal(
            (Reason.TooBusy, $"{AskLimits.All} asks of all clients are waiting, which is the limit; ask again in a second"),
            await Support.Ledger.Soon(Ask("e")) is { Refusal: { } refusal } ? (refusal.Reason, refusal.Text) : default);

        var own = _ledger.Writer.Append(_ => [new ServiceStoppedBody()]);
        Assert.False(own.IsCompleted);
        _gate.Open();

        await Support.Ledger.Soon(Task.WhenAll(all));
        Assert.Equal((await own).Entry!.Serial + 1, _ledger.Rows().First(r => r.Kind == "answer").Serial);
    }

    [Fact]
    public async Task The_last_entry_comes_after_all_waiting_asks_and_nothing_is_accepted_after_it()
    {
        var before = Enumerable.Range(0, 10).Select(i => Ask("a", i)).ToList();
        var last = _ledger.Writer.AppendLast(_ => [new ServiceStoppedBody()]);
        var own = _ledger.Writer.Append(_ => [new ServiceStoppedBody()]);

        Assert.Equal(Reason.ShuttingDown, (await Support.Ledger.Soon(Ask("a"))).Refusal!.Reason);
        _gate.Open();

        var answered = (await Support.Ledger.Soon(Task.WhenAll(before))).Select(o => o.Entry!.Serial).ToList();
        Assert.True((await Support.Ledger.Soon(own)).Entry!.Serial < answered[0]);
        Assert.Equal(answered[^1] + 1, (await Support.Ledger.Soon(last)).Entry!.Serial);
    }

    private Task<AppendOutcome> Ask(string client, int tag = 0) =>
        _ledger.Writer.Append(Support.Ledger.Locate() with { Caller = new(client, "demo", "127.0.0.1:1",
            tag.ToString(System.Globalization.CultureInfo.InvariantCulture)) });

    /// <summary>Asks of a client until one is refused; the refused ask is not included.</summary>
    private List<Task<AppendOutcome>> Flood(string client)
    {
        var waiting = new List<Task<AppendOutcome>>();
        for (var next = Ask(client); !next.IsCompleted; next = Ask(client))
        {
            waiting.Add(next);
        }

        return waiting;
    }
}
