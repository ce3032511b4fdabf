using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Pages;

internal static partial class Log
{
    [LoggerMessage(921, LogLevel.Error, "The page {Path} failed")]
    public static partial void PageFailed(ILogger logger, Exception exception, string path);

    [LoggerMessage(922, LogLevel.Error, "The page {Path} could not read the ledger")]
    public static partial void LedgerNotRead(ILogger logger, Exception exception, string path);
}
