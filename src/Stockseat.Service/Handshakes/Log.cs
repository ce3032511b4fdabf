using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Handshakes;

internal static partial class Log
{
    [LoggerMessage(911, LogLevel.Warning, "A connection with TLS from {Remote} was turned away as {Cause}: {Why}; {PassedOver} others were not logged")]
    public static partial void NoTls(ILogger logger, string? remote, string cause, string why, long passedOver);
}
