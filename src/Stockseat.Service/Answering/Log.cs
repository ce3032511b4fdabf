using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Answering;

internal static partial class Log
{
    [LoggerMessage(101, LogLevel.Information, "Refused {Verb} of {Fixture} for {Client}: {Reason}, {Text}")]
    public static partial void Refused(ILogger logger, string verb, string fixture, string reason, string text, string? client);
}
