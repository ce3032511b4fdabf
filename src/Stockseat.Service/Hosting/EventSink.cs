using System.Globalization;
using Microsoft.Extensions.Logging;
using Serilog.Core;
using Serilog.Events;

namespace Stockseat.Service.Hosting;

/// <summary>Passes what Serilog writes to a logger of the platform.</summary>
public sealed class EventSink(Microsoft.Extensions.Logging.ILogger events) : ILogEventSink
{
    /// <inheritdoc/>
    public void Emit(LogEvent logEvent)
    {
        ArgumentNullException.ThrowIfNull(logEvent);
        var level = logEvent.Level switch
        {
            LogEventLevel.Fatal => LogLevel.Critical,
            LogEventLevel.Error => LogLevel.Error,
            LogEventLevel.Warning => LogLevel.Warning,
            _ => LogLevel.Information,
        };
        events.Log(level, new(Id(logEvent)), logEvent, logEvent.Exception, (e, _) => e.RenderMessage(CultureInfo.InvariantCulture));
    }

    private static int Id(LogEvent logEvent) =>
        logEvent.Properties.TryGetValue("EventId", out var value) && value is StructureValue structure
        && structure.Properties.FirstOrDefault(p => p.Name == "Id")?.Value is ScalarValue { Value: int id } ? id : 0;
}
