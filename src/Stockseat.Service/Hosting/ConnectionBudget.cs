using Stockseat.Service.Configuration;
using Stockseat.Service.Grpc;

namespace Stockseat.Service.Hosting;

/// <summary>
/// How many connections fit beside the files that the service itself needs open: program, ledger, its readers, fixtures, log. If too many connections were let
/// in, the next file could not be opened, and the run-time ends a process to which that happens.
/// </summary>
/// <param name="Admitted">How many connections are let in.</param>
/// <param name="Accepted">How many may be open, including those that are being turned away.</param>
/// <param name="Needed">The limit of open files at which all connections of the configuration could be let in.</param>
public sealed record ConnectionBudget(int Admitted, int Accepted, long Needed)
{
    /// <summary>Room for connections that are being turned away.</summary>
    internal const int BeingTurnedAway = 128;

    /// <summary>The fewest connections with which the service is useful.</summary>
    internal const int FewestConnections = 16;

    /// <summary>The files of one ledger reader: the database, its write-ahead log and that log's index, and at times a closed ledger.</summary>
    private const int FilesOfAReader = 4;

    /// <summary>Heavy calls and pages, and what the program still loads, a look into a folder, a roll, a recovery.</summary>
    private const int FilesOfTheService = 96;

    /// <summary>Computes what fits.</summary>
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
                $"Limits:Connections: this process may have {limit} files open, but the service needs at least {own + fewest} "
                + $"with {fewest} connections; the {stated} connections stated need {(long)own + stated}: raise the limit (LimitNOFILE in the unit, "
                + $"ulimit -n in a shell)");
    }
}
