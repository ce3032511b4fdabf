using Stockseat.Service.Configuration;
using Stockseat.Service.Grpc;

namespace Stockseat.Service.Hosting;

/// <summary>
/// How many connections fit beside what the service itself needs open: program, ledger, its readers, fixtures, log. Were they all let in, the next file that
/// has to be opened could not be, and the run-time ends a process to which that happens.
/// </summary>
/// <param name="Admitted">How many connections are let in.</param>
/// <param name="Accepted">How many may be open: also those that are just being turned away.</param>
/// <param name="Needed">The limit of open files at which all are let in that the configuration states.</param>
public sealed record ConnectionBudget(int Admitted, int Accepted, long Needed)
{
    /// <summary>Those that are being told that they are not let in.</summary>
    internal const int BeingTurnedAway = 128;

    /// <summary>With fewer it serves nobody.</summary>
    internal const int FewestConnections = 16;

    /// <summary>A reader of the ledger has the database, its log and its index of that open, and for a while a closed ledger.</summary>
    private const int FilesOfAReader = 4;

    /// <summary>Heavy calls and pages, and what the program still loads, a look into a folder, a roll, a recovery.</summary>
    private const int FilesOfTheService = 96;

    /// <summary>What fits.</summary>
    /// <param name="stated">How many connections the configuration states.</param>
    /// <param name="ports">How many reading ports there are; each may have two connections of its own for a moment.</param>
    /// <param name="open">How many files are open before the service begins.</param>
    /// <param name="limit">How many may be; null: as many as are wanted.</param>
    /// <exception cref="ConfigurationException">Not even a few connections fit.</exception>
    public static ConnectionBudget Of(int stated, int ports, int open, long? limit)
    {
        var own = open + (LedgerWatch.Most * FilesOfAReader) + FilesOfTheService + (2 * ports) + BeingTurnedAway;
        var admitted = (int)Math.Clamp((limit ?? long.MaxValue) - own, int.MinValue, stated);
        var fewest = Math.Min(FewestConnections, stated);
        return admitted >= fewest
            ? new(admitted, admitted + BeingTurnedAway, (long)own + stated)
            : throw new ConfigurationException(
                $"Limits:Connections: this process may have {limit} files open, and {own + fewest} are the least that the service needs "
                + $"with {fewest} connections; {(long)own + stated} are needed for the {stated} stated: raise the limit (LimitNOFILE in the unit, "
                + $"ulimit -n in a shell)");
    }
}
