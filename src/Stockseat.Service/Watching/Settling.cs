using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>A folder that differs from what is known, until it is clear that nobody is still writing it.</summary>
internal sealed class Settling(WatchIntervals intervals, TimeProvider time)
{
    private readonly long _begun = time.GetTimestamp();
    private long _since = time.GetTimestamp();
    private bool _seen;

    /// <summary>As it was last seen.</summary>
    public FixtureFolder? Folder { get; private set; }

    /// <summary>One more look.</summary>
    /// <param name="folder">The folder as just read; null when it is not there.</param>
    /// <returns>Whether it can be used as it is.</returns>
    public bool See(FixtureFolder? folder)
    {
        var same = _seen && (folder is null ? Folder is null : folder.SameAs(Folder));
        (Folder, _seen) = (folder, true);
        if (!same)
        {
            _since = time.GetTimestamp();
        }

        return time.GetElapsedTime(_since) >= (folder is null ? intervals.Gone : intervals.Settled)
            || (folder is not null && time.GetElapsedTime(_begun) >= intervals.Longest);
    }
}
