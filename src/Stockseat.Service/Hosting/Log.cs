using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Hosting;

internal static partial class Log
{
    [LoggerMessage(401, LogLevel.Information, "Serving: gRPC on {Grpc}, lines on {Line}, pages on {Page}, ledger in {Data} at entry {Serial}")]
    public static partial void Serving(ILogger logger, string grpc, string line, string page, string data, long serial);

    [LoggerMessage(402, LogLevel.Error, "The ledger can't be written; asks are refused until that works")]
    public static partial void LedgerLost(ILogger logger, Exception? exception);

    [LoggerMessage(403, LogLevel.Warning, "The ledger can be written again")]
    public static partial void LedgerBack(ILogger logger);

    [LoggerMessage(404, LogLevel.Error, "Deciding an ask failed")]
    public static partial void DecisionFailed(ILogger logger, Exception exception);

    [LoggerMessage(405, LogLevel.Critical, "The ledger's writer ended; the service ends")]
    public static partial void WriterEnded(ILogger logger, Exception exception);

    [LoggerMessage(410, LogLevel.Warning, "Stopped, but the stop or the last seal could not be written to the ledger")]
    public static partial void StopNotRecorded(ILogger logger);

    [LoggerMessage(411, LogLevel.Warning, "The supervisor's watchdog could not be told that the service is alive: {Cause}")]
    public static partial void WatchdogUnheard(ILogger logger, string cause);

    [LoggerMessage(415, LogLevel.Warning,
        "Listening, and refusing every ask: gRPC on {Grpc}, lines on {Line}, pages on {Page}; the ledger in {Data} can't be written; this is tried again until "
            + "it works; make room on the disk")]
    public static partial void Waiting(ILogger logger, string grpc, string line, string page, string data);

    [LoggerMessage(421, LogLevel.Warning, "The ledger should roll over but could not, and goes on as it is: {Cause}")]
    public static partial void RollPutOff(ILogger logger, string cause);

    [LoggerMessage(422, LogLevel.Warning, "{Limit} files may be open, so only {Admitted} of the {Stated} connections of Limits:Connections are let in; "
        + "raise the limit to {Needed} (LimitNOFILE in the unit, ulimit -n in a shell), or state fewer")]
    public static partial void FewerConnections(ILogger logger, long? limit, int admitted, int stated, long needed);

    [LoggerMessage(408, LogLevel.Information, "Stopped cleanly")]
    public static partial void Stopped(ILogger logger);
}
