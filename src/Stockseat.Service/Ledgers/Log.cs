using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Ledgers;

internal static partial class Log
{
    [LoggerMessage(412, LogLevel.Information, "The ledger is not sealed: name a key in Ledger:SealKey; without one, somebody who can write the file can forge "
        + "all of it")]
    public static partial void NotSealed(ILogger logger);

    [LoggerMessage(413, LogLevel.Information, "The ledger is sealed with key {Key} every {Every} entries, after {After} without a new one, and at the stop")]
    public static partial void IsSealed(ILogger logger, string key, int every, TimeSpan after);

    [LoggerMessage(414, LogLevel.Warning,
        "The key has changed: up to entry {Serial} the ledger was sealed with {Before}, from now on with {Key}; keep both public keys")]
    public static partial void KeyChanged(ILogger logger, long serial, string before, string key);
}
