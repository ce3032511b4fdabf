using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Forwarding;

internal static partial class Log
{
    [LoggerMessage(921, LogLevel.Information, "The plant store {Store} was reached")]
    public static partial void Reached(ILogger logger, string store);

    [LoggerMessage(922, LogLevel.Warning, "Entries wait to be sent, and answers go on: {Cause}. It is tried again and again")]
    public static partial void Lost(ILogger logger, string cause);

    [LoggerMessage(923, LogLevel.Information, "The plant store has every entry up to {Serial}")]
    public static partial void CaughtUp(ILogger logger, long serial);

    [LoggerMessage(924, LogLevel.Error, "Alarm: a ledger is not sent to the plant store any more: {Fault}")]
    public static partial void Stopped(ILogger logger, string fault);

    [LoggerMessage(925, LogLevel.Information, "What kept a ledger from being sent to the plant store is gone")]
    public static partial void GoesOn(ILogger logger);

    [LoggerMessage(926, LogLevel.Error, "Sending to the plant store failed unexpectedly; it begins again")]
    public static partial void Failed(ILogger logger, Exception exception);
}
