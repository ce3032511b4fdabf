namespace Stockseat.Service.Hosting;

/// <summary>
/// How long each part of a stop may take. The parts follow one another, so that the promised total holds whatever hangs: 4 s for the
/// running requests, 1 s in which Kestrel then breaks their connections, 2 s for the ledger's last entry and its seal, 0.75 s for the log; 7.75 s of the 8 s.
/// The supervisor's own limit (TimeoutStopSec in the unit) is longer still. A test adds them up.
/// </summary>
public static class StopLimits
{
    /// <summary>A stop is over by then.</summary>
    public static readonly TimeSpan Promised = TimeSpan.FromSeconds(8);

    /// <summary>For running requests to finish: the host's ShutdownTimeout.</summary>
    public static readonly TimeSpan Requests = TimeSpan.FromSeconds(4);

    /// <summary>What Kestrel takes at most, by itself, to break connections that did not end in time.</summary>
    public static readonly TimeSpan Breaking = TimeSpan.FromSeconds(1);

    /// <summary>For the queue's rest, the last entry and the last seal to be written, and the ledger to be closed.</summary>
    public static readonly TimeSpan LastEntry = TimeSpan.FromSeconds(2);

    /// <summary>For the log's last lines to be read.</summary>
    public static readonly TimeSpan Log = TimeSpan.FromSeconds(0.75);
}
