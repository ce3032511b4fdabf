using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Certificates;

internal static partial class Log
{
    [LoggerMessage(901, LogLevel.Information, "New connections use the certificate {Subject}, {Pin}, valid until {End:O}")]
    public static partial void Used(ILogger logger, string subject, string pin, DateTimeOffset end);

    [LoggerMessage(902, LogLevel.Warning, "The changed certificate is not used, and the one before stays: {Fault}")]
    public static partial void NotUsed(ILogger logger, string fault);

    [LoggerMessage(903, LogLevel.Warning, "About the service's certificate: {Advice}")]
    public static partial void EndsSoon(ILogger logger, string advice);

    [LoggerMessage(904, LogLevel.Error, "The files of the certificate could not be looked at")]
    public static partial void LookFailed(ILogger logger, Exception exception);
}
