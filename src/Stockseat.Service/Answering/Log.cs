using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Answering;

internal static partial class Log
{
    [LoggerMessage(101, LogLevel.Information, "Refused {Verb} of {Fixture} for {Client}: {Reason}, {Text}; {PassedOver} similar ones before it were not "
        + "logged")]
    public static partial void Refused(ILogger logger, long passedOver, string verb, string fixture, string reason, string text, string? client);
}
