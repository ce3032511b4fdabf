using Microsoft.Extensions.Logging;
using Serilog;
using Serilog.Events;
using Serilog.Extensions.Logging;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>What would reach the event log of Windows, except the platform's own provider.</summary>
public sealed partial class EventSinkTests
{
    [Fact]
    public void Warnings_and_worse_arrive_with_text_number_and_exception()
    {
        var events = new Events();
        using var logger = new LoggerConfiguration().MinimumLevel.Verbose().WriteTo.Sink(new EventSink(events), LogEventLevel.Warning).CreateLogger();
        using var provider = new SerilogLoggerProvider(logger);
        var cause = new IOException("no room");

        Gone(provider.CreateLogger("service"), "ledger.db", cause);
        logger.Fatal("The service could not run: {Cause:l}", "port in use");
        logger.Information("not worth an event");

        Assert.Equal(
            [(LogLevel.Warning, 902, "\"ledger.db\" is gone", cause), (LogLevel.Critical, 0, "The service could not run: port in use", (Exception?)null)],
            events.All);
    }

    [Fact]
    public void Without_a_Windows_service_nothing_is_added()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "it is not known whether the tests run under a Windows service");
        var configuration = new LoggerConfiguration();

        Assert.Same(configuration, configuration.WithWindowsEvents(ServiceLog.UsualHeld, new()));
    }

    [LoggerMessage(902, LogLevel.Warning, "{What} is gone")]
    private static partial void Gone(Microsoft.Extensions.Logging.ILogger logger, string what, Exception cause);

    private sealed class Events : Microsoft.Extensions.Logging.ILogger
    {
        public List<(LogLevel, int, string, Exception?)> All { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            All.Add((logLevel, eventId.Id, formatter(state, exception), exception));
    }
}
