using System.Globalization;

namespace Stockseat.Cli.Output;

/// <summary>
/// Tells on stderr how far something is, once a second, when it takes longer than one: one line that is written over on a terminal, else lines.
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

    /// <summary>How many entries are done, and how many there are.</summary>
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
