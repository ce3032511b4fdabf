using Serilog.Core;
using Serilog.Events;
using Serilog.Parsing;

namespace Stockseat.Service.Hosting;

/// <summary>Logs, after the next line that is written, how many lines were dropped: lines are dropped only while earlier ones are still held.</summary>
/// <param name="inner">Where lines go.</param>
/// <param name="dropped">How many were dropped since the start.</param>
internal sealed class DropTeller(ILogEventSink inner, Func<long> dropped) : ILogEventSink, IDisposable
{
    private static readonly MessageTemplate Text = new MessageTemplateParser().Parse(
        "{Count} log lines were dropped, because nothing read the log fast enough ({All} since the start); the ledger has all its entries nevertheless");

    private long _told;

    /// <inheritdoc/>
    public void Emit(LogEvent logEvent)
    {
        inner.Emit(logEvent);
        var all = dropped();
        if (all > _told)
        {
            inner.Emit(new(logEvent.Timestamp, LogEventLevel.Warning, null, Text, [Number("Count", all - _told), Number("All", all), Id()]));
            _told = all;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => (inner as IDisposable)?.Dispose();

    private static LogEventProperty Number(string name, long value) => new(name, new ScalarValue(value));

    private static LogEventProperty Id() => new("EventId", new StructureValue([new("Id", new ScalarValue(420)), new("Name", new ScalarValue("LinesDropped"))]));
}
