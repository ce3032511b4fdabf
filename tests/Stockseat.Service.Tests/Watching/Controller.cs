using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Watching;

/// <summary>A client that asks for the pin bed all the time.</summary>
internal sealed class Controller
{
    private readonly Lock _lock = new();
    private readonly List<string> _replies = [];
    private readonly Task _asking;
    private (int Count, TaskCompletionSource Reached)? _awaited;
    private volatile bool _stop;

    private Controller(LineClient line) => _asking = Task.Run(() => Ask(line));

    /// <summary>Starts the client; it has its first replies when this returns.</summary>
    public static async Task<Controller> Start(Bench bench)
    {
        var controller = new Controller(await bench.Line());
        await controller.More(10);
        return controller;
    }

    /// <summary>Ends when the client has that many more replies; fails at once when it gets no more replies.</summary>
    public async Task More(int count)
    {
        Task reached;
        lock (_lock)
        {
            _awaited = (_replies.Count + count, new(TaskCreationOptions.RunContinuationsAsynchronously));
            reached = _awaited.Value.Reached.Task;
        }

        await await Task.WhenAny(reached, _asking).Within($"{count} more replies");
    }

    /// <summary>The client's replies.</summary>
    public async Task<IReadOnlyList<string>> Stop()
    {
        _stop = true;
        await _asking.Within("the last reply");
        return _replies;
    }

    private async Task Ask(LineClient line)
    {
        using (line)
        {
            while (!_stop)
            {
                var reply = await line.Ask("locate fixture=pinbed-1 diameter=92.40mm");
                lock (_lock)
                {
                    _replies.Add(reply);
                    if (_awaited is { } awaited && _replies.Count >= awaited.Count)
                    {
                        awaited.Reached.TrySetResult();
                    }
                }
            }
        }
    }
}
