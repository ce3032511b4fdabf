namespace Stockseat.Service.Watching;

/// <summary>
/// How often the fixtures' folders are looked at, and how long a change has to stand. For everything that writes there: editors, copies, shares.
/// </summary>
public sealed record WatchIntervals
{
    /// <summary>From one look at all folders to the next, whether or not the system tells of changes.</summary>
    public TimeSpan Poll { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>A folder is taken when two looks so far apart found the same bytes. No two looks are nearer to each other.</summary>
    public TimeSpan Settled { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>A folder that never settles is taken as it then is: a fault that shows is better than a change that never does.</summary>
    public TimeSpan Longest { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>A folder that is away for so long is withdrawn. Longer than a change: what is copied anew is away for a moment.</summary>
    public TimeSpan Gone { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>In so many polls each folder is read in full once, whatever the file system says of it: 60 s.</summary>
    public int PollsToReadAll { get; init; } = 30;

    /// <summary>A look at one folder that takes longer hangs: it is reported and left to itself, and there is no other one before it has come back.</summary>
    public TimeSpan LongestLook { get; init; } = TimeSpan.FromSeconds(3);

    /// <summary>How long the others wait for one look before theirs begins beside it.</summary>
    public TimeSpan Moment { get; init; } = TimeSpan.FromMilliseconds(100);

    /// <summary>The longest wait before a change is offered again that the ledger did not take.</summary>
    public TimeSpan LongestRetry { get; init; } = TimeSpan.FromMinutes(1);
}
