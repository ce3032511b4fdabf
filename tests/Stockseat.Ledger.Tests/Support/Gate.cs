using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>Stops the writer inside a decision until the gate is opened.</summary>
internal sealed class Gate : IDisposable
{
    private readonly ManualResetEventSlim _open = new();
    private readonly TaskCompletionSource _entered = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public Gate(LedgerWriter writer) => _ = writer.Append(_ =>
    {
        _entered.SetResult();
        Assert.True(_open.Wait(Deadline.Usual));
        return [];
    });

    public Task Entered => _entered.Task.Within("the decision that stops the writer");

    public void Open() => _open.Set();

    public void Dispose() => _open.Set();
}
