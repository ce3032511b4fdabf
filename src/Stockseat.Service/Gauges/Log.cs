using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Gauges;

internal static partial class Log
{
    [LoggerMessage(501, LogLevel.Information, "Reading port {Port} did not use '{Shown}': {Cause}; {PassedOver} similar ones before it were not logged")]
    public static partial void NotUsed(ILogger logger, string port, string cause, string shown, long passedOver);

    [LoggerMessage(502, LogLevel.Warning,
        "Reading port {Port} has no connection to {Endpoint} since {Since}: {Cause}; attempt {Attempts}, it is tried again automatically; {PassedOver} "
        + "similar ones before it were not logged")]
    public static partial void NoConnection(ILogger logger, string port, string endpoint, string since, string cause, long attempts, long passedOver);

    [LoggerMessage(503, LogLevel.Debug, "Reading port {Port} is connected to {Endpoint} after {Attempts} attempts that failed")]
    public static partial void Connected(ILogger logger, string port, string endpoint, long attempts);

    [LoggerMessage(504, LogLevel.Error, "A push of reading port {Port} failed")]
    public static partial void PushFailed(ILogger logger, Exception exception, string port);

    [LoggerMessage(505, LogLevel.Error, "A connection at reading port {Port} failed")]
    public static partial void PortFailed(ILogger logger, Exception exception, string port);
}
