using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Clients;

/// <summary>A few heavy calls at a time: two in all, one of a client; three may wait, two of a client.</summary>
public sealed class CallGateTests : IDisposable
{
    private static readonly Client A = Bench.Client with { Name = "a" };
    private static readonly Client B = Bench.Client with { Name = "b" };
    private static readonly Client C = Bench.Client with { Name = "c" };

    private readonly CallGate _gate = new("checks", atOnce: 2, ofOne: 1, waiting: 3, waitingOfOne: 2);
    private readonly CancellationTokenSource _gone = new();

    public void Dispose() => _gone.Dispose();

    [Fact]
    public async Task A_client_s_second_call_waits_for_its_first_and_leaves_room_for_others()
    {
        var first = await Enter(A);
        var second = Enter(A);
        var other = await Enter(B);
        Assert.False(second.IsCompleted);

        other!.Dispose();
        Assert.False(second.IsCompleted);
        first!.Dispose();

        Assert.NotNull(await second);
    }

    [Fact]
    public async Task Waiting_calls_enter_in_order_past_one_whose_client_already_has_a_call()
    {
        var (a, b) = (await Enter(A), await Enter(B));
        var (again, c) = (Enter(A), Enter(C));

        b!.Dispose();
        Assert.NotNull(await c);
        Assert.False(again.IsCompleted);
        a!.Dispose();

        Assert.NotNull(await again);
    }

    [Fact]
    public async Task More_calls_than_may_wait_are_refused()
    {
        _ = await Enter(A);
        Task<IDisposable?>[] waiting = [Enter(A), Enter(A)];
        var (pass, refusal) = await _gate.Enter(A, _gone.Token).Within("a refusal at the gate");

        Assert.Null(pass);
        Assert.Equal(
            (Reason.TooBusy, "1 checks are running and 2 are waiting; 1 of one client may run and 2 wait; ask again in a second"),
            (refusal!.Reason, refusal.Text));
        _ = await Enter(B);
        _ = Enter(C);
        Assert.Equal(Reason.TooBusy, (await _gate.Enter(C, _gone.Token).Within("a refusal at the gate")).Refusal!.Reason);
        Assert.All(waiting, w => Assert.False(w.IsCompleted));
    }

    [Fact]
    public async Task A_call_that_gives_up_leaves_the_queue()
    {
        var first = await Enter(A);
        using var gone = new CancellationTokenSource();
        var gives = _gate.Enter(A, gone.Token);
        var after = Enter(A);

        await gone.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => gives.Within("the end of a call that was given up"));
        first!.Dispose();

        Assert.NotNull(await after);
    }

    private async Task<IDisposable?> Enter(Client client)
    {
        var (pass, refusal) = await _gate.Enter(client, _gone.Token).Within($"the turn of client {client.Name}");
        Assert.Null(refusal);
        return pass;
    }
}
