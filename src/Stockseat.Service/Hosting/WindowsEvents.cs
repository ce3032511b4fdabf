using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting.WindowsServices;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.EventLog;
using Serilog;
using Serilog.Events;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Hosting;

/// <summary>Nobody keeps the stderr of a Windows service: what a person has to know goes to the event log, through the platform's own provider.</summary>
public static class WindowsEvents
{
    /// <summary>The source that the install script registers.</summary>
    public const string Source = "Stockseat";

    /// <summary>Adds the event log, for warnings and worse, when the process is a Windows service. Logging never waits for it.</summary>
    /// <param name="configuration">What it is added to.</param>
    /// <param name="held">How many events are held while the event log takes none.</param>
    /// <param name="drops">Counts those that are dropped.</param>
    [SuppressMessage("Reliability", "CA2000", Justification = "The provider lives as long as the process.")]
    public static LoggerConfiguration WithWindowsEvents(this LoggerConfiguration configuration, int held, LogDrops drops)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        if (!OperatingSystem.IsWindows() || !WindowsServiceHelpers.IsWindowsService())
        {
            return configuration;
        }

        var events = new EventSink(new EventLogLoggerProvider(new EventLogSettings { LogName = "Application", SourceName = Source }).CreateLogger(Source));
        return configuration.WriteTo.Async(to => to.Sink(events, LogEventLevel.Warning), held, blockWhenFull: false, drops);
    }
}
