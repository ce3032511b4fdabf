using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Hosting;

internal static partial class Log
{
    [LoggerMessage(401, LogLevel.Information, "Serving: gRPC on {Grpc}, lines on {Line}, ledger in {Data} at entry {Serial}")]
    public static partial void Serving(ILogger logger, string grpc, string line, string data, long serial);

    [LoggerMessage(402, LogLevel.Error, "The ledger can't be written; asks are refused until it can")]
    public static partial void LedgerLost(ILogger logger, Exception? exception);

    [LoggerMessage(403, LogLevel.Warning, "The ledger can be written again")]
    public static partial void LedgerBack(ILogger logger);

    [LoggerMessage(404, LogLevel.Error, "Deciding an ask failed")]
    public static partial void DecisionFailed(ILogger logger, Exception exception);

    [LoggerMessage(405, LogLevel.Critical, "The ledger's writer ended; the service ends")]
    public static partial void WriterEnded(ILogger logger, Exception exception);

    [LoggerMessage(406, LogLevel.Warning, "Fixture {Fixture} has a faulty file: {Fault}")]
    public static partial void FaultyFile(ILogger logger, string fixture, string fault);

    [LoggerMessage(407, LogLevel.Warning, "Fixture {Fixture} answers nothing: {Reason}, {Text}")]
    public static partial void NotAnswering(ILogger logger, string fixture, string reason, string text);

    [LoggerMessage(409, LogLevel.Warning, "There is no fixture in {Folder}: every ask will be refused until one is there")]
    public static partial void NoFixtures(ILogger logger, string folder);

    [LoggerMessage(410, LogLevel.Warning, "Stopped, but the stop or the last seal could not be written to the ledger")]
    public static partial void StopNotRecorded(ILogger logger);

    [LoggerMessage(411, LogLevel.Warning, "The supervisor's watchdog could not be told that the service is alive: {Cause}")]
    public static partial void WatchdogUnheard(ILogger logger, string cause);

    [LoggerMessage(412, LogLevel.Information, "The ledger is not sealed: name a key in Ledger:SealKey, else whoever can write the file can forge all of it")]
    public static partial void NotSealed(ILogger logger);

    [LoggerMessage(413, LogLevel.Information, "The ledger is sealed with key {Key} every {Every} entries, after {After} without a new one, and at the stop")]
    public static partial void IsSealed(ILogger logger, string key, int every, TimeSpan after);

    [LoggerMessage(414, LogLevel.Warning, "The key is another one: until entry {Serial} the ledger was sealed with {Before}, from now on with {Key}; keep both public keys")]
    public static partial void KeyChanged(ILogger logger, long serial, string before, string key);

    [LoggerMessage(415, LogLevel.Warning, "Listening, and refusing every ask: gRPC on {Grpc}, lines on {Line}; the ledger in {Data} can't be written; it is tried again until it can: make room")]
    public static partial void Waiting(ILogger logger, string grpc, string line, string data);

    [LoggerMessage(416, LogLevel.Warning, "Fixture {Fixture}: {Fault}")]
    public static partial void NotRead(ILogger logger, string fixture, string fault);

    [LoggerMessage(417, LogLevel.Warning, "The fixtures' folder {Folder} can't be listed ({Cause}); fixtures that are new are found when it can")]
    public static partial void NotListed(ILogger logger, string folder, string cause);

    [LoggerMessage(421, LogLevel.Warning, "The ledger is to roll over, and goes on as it is: {Cause}")]
    public static partial void RollPutOff(ILogger logger, string cause);

    [LoggerMessage(422, LogLevel.Warning, "{Limit} files may be open, so only {Admitted} of the {Stated} connections of Limits:Connections are let in; "
        + "raise the limit to {Needed} (LimitNOFILE in the unit, ulimit -n in a shell), or state fewer")]
    public static partial void FewerConnections(ILogger logger, long? limit, int admitted, int stated, long needed);

    [LoggerMessage(408, LogLevel.Information, "Stopped in order")]
    public static partial void Stopped(ILogger logger);
}
