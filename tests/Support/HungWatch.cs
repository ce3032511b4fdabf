using System.Globalization;

namespace Stockseat.Tests.Support;

/// <summary>Notices that no test has begun or ended for long, and says which tests have begun and not ended.</summary>
internal sealed class HungWatch
{
    private readonly AutoResetEvent _moved = new(initialState: false);
    private readonly List<string> _running = [];
    private readonly TimeSpan _limit;
    private readonly Action<string> _end;
    private string _last = "none";

    /// <param name="limit">How long nothing may happen.</param>
    /// <param name="end">What is done in that case, once.</param>
    public HungWatch(TimeSpan limit, Action<string> end) => (_limit, _end) = (limit, end);

    /// <summary>Begins to watch, on a thread of its own: the threads of the pool may all be blocked by whatever hangs.</summary>
    public void Start() => new Thread(Watch) { IsBackground = true, Name = "watch for hung tests" }.Start();

    public void Begins(string test)
    {
        lock (_running)
        {
            _running.Add(test);
        }

        _moved.Set();
    }

    public void Ends(string test)
    {
        lock (_running)
        {
            _running.Remove(test);
            _last = test;
        }

        _moved.Set();
    }

    private void Watch()
    {
        while (_moved.WaitOne(_limit))
        {
        }

        lock (_running)
        {
            var running = _running.Count == 0 ? "none" : string.Join(", ", _running);
            _end(string.Create(
                CultureInfo.InvariantCulture,
                $"HUNG: no test has begun or ended for {_limit.TotalMinutes:0.######} min. Running: {running}. The last that ended: {_last}."));
        }
    }
}
