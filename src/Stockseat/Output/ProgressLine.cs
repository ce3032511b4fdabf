using System.Globalization;

namespace Stockseat.Cli.Output;

/// <summary>
/// Shows the progress of long work on stderr, once a second: on a terminal one line that is overwritten, otherwise line after line.
/// </summary>
internal sealed class ProgressLine : IDisposable
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private readonly TimeProvider _time;
    private readonly bool _terminal = !Console.IsErrorRedirected;
    private readonly bool _told;
    private readonly long _begun;
    private long _last;
    private bool _open;

    public ProgressLine(TimeProvider time, bool always)
    {
        (_time, _told) = (time, always || _terminal);
        _begun = _last = time.GetTimestamp();
    }

    /// <summary>Shows how many entries are done, and how many there are.</summary>
    public void Tell(long done, long all)
    {
        if (!_told || _time.GetElapsedTime(_last) < Every)
        {
            return;
        }

        _last = _time.GetTimestamp();
        var text = Text(done, all, _time.GetElapsedTime(_begun));
        Console.Error.Write(_terminal ? $"\r{text}   " : $"{text}\n");
        _open = _terminal;
    }

    public void Dispose()
    {
        if (_open)
        {
            Console.Error.WriteLine();
        }
    }

    private static string Text(long done, long all, TimeSpan spent)
    {
        var rate = done / spent.TotalSeconds;
        return string.Create(
            CultureInfo.InvariantCulture, $"{done} of {all} entries, {rate:F0} a second, about {Math.Max(0, all - done) / Math.Max(1, rate):F0} s left");
    }
}
