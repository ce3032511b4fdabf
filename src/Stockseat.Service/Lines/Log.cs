using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Lines;

internal static partial class Log
{
    [LoggerMessage(201, LogLevel.Information, "Turned away a connection from {Remote}: {Text}; {PassedOver} similar ones before it were not logged")]
    public static partial void TurnedAway(ILogger logger, string? remote, string text, long passedOver);

    [LoggerMessage(202, LogLevel.Information, "Refused a line of {Client} at {Address}: {Reason}, {Text}; bytes {Hex}; {PassedOver} similar ones before it "
        + "were not logged")]
    public static partial void Malformed(ILogger logger, string? client, string? address, string reason, string text, string hex, long passedOver);

    [LoggerMessage(203, LogLevel.Error, "A conversation with {Address} failed")]
    public static partial void ConversationFailed(ILogger logger, Exception exception, string? address);
}
