namespace Stockseat.Service.Watching;

/// <summary>
/// How often the fixtures' folders are checked, and how long a change has to stay the same. This suits everything that writes there: editors, copies, shares.
/// </summary>
public sealed record WatchIntervals
{
    /// <summary>From one look at all folders to the next, whether or not the system reports changes.</summary>
    public TimeSpan Poll { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>A folder is used when two looks this far apart found the same bytes. No two looks are closer together.</summary>
    public TimeSpan Settled { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>After this time a folder that never settles is used as it is: a fault that shows is better than a change that never does.</summary>
    public TimeSpan Longest { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>
    /// A folder that is missing for this long is withdrawn. This is longer than for a change: a folder that is copied again is missing for a moment.
    /// </summary>
    public TimeSpan Gone { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Within this many polls each folder is read in full once, whatever the file system reports: 60 s.</summary>
    public int PollsToReadAll { get; init; } = 30;

    /// <summary>A look at a folder that takes longer hangs: it is reported and left alone, and there is no other look before it has come back.</summary>
    public TimeSpan LongestLook { get; init; } = TimeSpan.FromSeconds(3);

    /// <summary>How long one look may delay the looks at the other folders.</summary>
    public TimeSpan Moment { get; init; } = TimeSpan.FromMilliseconds(100);

    /// <summary>The longest wait before a change that the ledger did not take is tried again.</summary>
    public TimeSpan LongestRetry { get; init; } = TimeSpan.FromMinutes(1);
}
