using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Watching;

internal static partial class Log
{
    [LoggerMessage(601, LogLevel.Information, "Fixture {Fixture}: revision {Revision} waits to be adopted")]
    public static partial void Waits(ILogger logger, string fixture, int revision);

    [LoggerMessage(602, LogLevel.Warning, "Fixture {Fixture} has a faulty file: {Fault}")]
    public static partial void Faulty(ILogger logger, string fixture, string fault);

    [LoggerMessage(603, LogLevel.Information, "Fixture {Fixture} no longer has a faulty file")]
    public static partial void Mended(ILogger logger, string fixture);

    [LoggerMessage(604, LogLevel.Warning, "Fixture {Fixture} refuses all asks: {Reason}, {Text}")]
    public static partial void Refused(ILogger logger, string fixture, string reason, string text);

    [LoggerMessage(605, LogLevel.Information, "Fixture {Fixture} is restored: asks are no longer refused with {Reason}")]
    public static partial void Restored(ILogger logger, string fixture, string reason);

    [LoggerMessage(606, LogLevel.Information,
        "Fixture {Fixture}: revision {Revision} was adopted, as the configuration says for a fixture that the ledger has never seen")]
    public static partial void Adopted(ILogger logger, string fixture, int revision);

    [LoggerMessage(607, LogLevel.Information, "Fixture {Fixture} is new")]
    public static partial void New(ILogger logger, string fixture);

    [LoggerMessage(608, LogLevel.Information, "Fixture {Fixture} is gone; the ledger has nothing about it")]
    public static partial void Gone(ILogger logger, string fixture);

    [LoggerMessage(609, LogLevel.Warning, "Fixture {Fixture}: {Fault}")]
    public static partial void NotRead(ILogger logger, string fixture, string fault);

    [LoggerMessage(610, LogLevel.Information, "The folder of fixture {Fixture} can be read again")]
    public static partial void ReadAgain(ILogger logger, string fixture);

    [LoggerMessage(611, LogLevel.Warning,
        "The system no longer reports changes in {Folder} ({Cause}); the folder is checked at intervals instead, so changes show a little later")]
    public static partial void NoHints(ILogger logger, string folder, string cause);

    [LoggerMessage(612, LogLevel.Warning, "The fixtures' folder {Folder} can't be listed ({Cause}); until that works, what was read last stays in use")]
    public static partial void NotListed(ILogger logger, string folder, string cause);

    [LoggerMessage(613, LogLevel.Information, "The fixtures' folder {Folder} can be listed again")]
    public static partial void ListedAgain(ILogger logger, string folder);

    [LoggerMessage(614, LogLevel.Warning, "Changes in the fixtures' folders can't be taken yet: {Reason}, {Text}; they are tried again automatically")]
    public static partial void NotTaken(ILogger logger, string reason, string text);

    [LoggerMessage(615, LogLevel.Error, "A look at the fixtures' folders failed; the next look follows automatically")]
    public static partial void LookFailed(ILogger logger, Exception exception);

    [LoggerMessage(406, LogLevel.Warning, "Fixture {Fixture} has a faulty file: {Fault}", EventName = "FaultyFile")]
    public static partial void FaultyAtStart(ILogger logger, string fixture, string fault);

    [LoggerMessage(407, LogLevel.Warning, "Fixture {Fixture} refuses all asks: {Reason}, {Text}", EventName = "NotAnswering")]
    public static partial void RefusedAtStart(ILogger logger, string fixture, string reason, string text);

    [LoggerMessage(409, LogLevel.Warning, "There is no fixture in {Folder}: every ask is refused until there is one")]
    public static partial void NoFixtures(ILogger logger, string folder);

    [LoggerMessage(416, LogLevel.Warning, "Fixture {Fixture}: {Fault}", EventName = "NotRead")]
    public static partial void NotReadAtStart(ILogger logger, string fixture, string fault);

    [LoggerMessage(417, LogLevel.Warning,
        "The fixtures' folder {Folder} can't be listed ({Cause}); new fixtures are found as soon as it can be listed", EventName = "NotListed")]
    public static partial void NotListedAtStart(ILogger logger, string folder, string cause);
}
