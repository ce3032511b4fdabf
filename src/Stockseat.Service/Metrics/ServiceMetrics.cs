using System.Diagnostics.Metrics;
using System.Reflection;
using OpenTelemetry.Metrics;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Gauges;
using Stockseat.Service.Ledgers;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Metrics;

/// <summary>
/// What is measured of a running service. No label has a text of a client: verbs, reasons and causes are closed lists, fixtures and ports are the site's own.
/// </summary>
internal sealed class ServiceMetrics : IDisposable
{
    private const string Name = "stockseat";

    private readonly Meter _meter = new(Name);
    private readonly Answerer _answerer;
    private readonly LedgerWriter _writer;
    private readonly TimeProvider _time;
    private readonly Counter<long> _asks;
    private readonly Histogram<double> _answerTime;
    private readonly Histogram<double> _commitTime;
    private readonly Histogram<long> _commitAsks;

    /// <summary>Begins to measure.</summary>
    public ServiceMetrics(
        Answerer answerer, LedgerWriter writer, Door door, ReadingPorts ports, LedgerSettings ledger, LogDrops drops, TimeProvider time,
        MetricsSettings settings, ServiceTls? tls = null, PlantForwarding? plant = null)
    {
        ArgumentNullException.ThrowIfNull(answerer);
        ArgumentNullException.ThrowIfNull(writer);
        (_answerer, _writer, _time) = (answerer, writer, time);
        Provider = MetricsText.Collect(Name, settings);
        _asks = _meter.CreateCounter<long>(MeasuredThing.Asks.Instrument, MeasuredThing.Asks.Unit, MeasuredThing.Asks.Help);
        _answerTime = Histogram<double>(MeasuredThing.AnswerTime);
        _commitTime = Histogram<double>(MeasuredThing.CommitTime);
        _commitAsks = Histogram<long>(MeasuredThing.CommitAsks);
        Gauge(MeasuredThing.Waiting, () => [new(writer.Waiting)]);
        Gauge(MeasuredThing.Connections, () => [new(door.Connections)]);
        Count(MeasuredThing.TurnedAway, () => door.Counts.Select(c => new Measurement<long>(c.Count, Label("cause", c.Why.Name()))));
        Count(MeasuredThing.LogDropped, () => [new(drops.Count)]);
        Gauge(MeasuredThing.Writable, () => [new(One(writer.Writable))]);
        Gauge(MeasuredThing.Serial, () => [new(writer.Serial)]);
        Gauge(MeasuredThing.Size, () => [new(Size(ledger.Data))]);
        Gauge(MeasuredThing.Unsealed, () => [new(writer.Seals.Unsealed)]);
        Gauge(MeasuredThing.SealAge, () => EntryTime.TryParse(writer.Seals.Newest.At, out var at) ? [new((time.GetUtcNow() - at).TotalSeconds)] : []);
        OfFixtures();
        Gauge(MeasuredThing.PortConnected, () => ports.Statuses.Select(p => new Measurement<double>(One(p.State == PortState.Connected),
            Label("port", p.Name))));
        Gauge(MeasuredThing.CertificateLeft, () => tls is null ? [] : [new(tls.Left.TotalSeconds)]);
        OfPlant(plant);
        Gauge(MeasuredThing.Build, () => [new(1, Label("version", Version))]);
        answerer.Answered += Answered;
        writer.Committed += Committed;
    }

    /// <summary>Collects what is measured.</summary>
    internal MeterProvider Provider { get; }

    private static string Version { get; } =
        typeof(ServiceMetrics).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "";

    /// <inheritdoc/>
    public void Dispose()
    {
        _answerer.Answered -= Answered;
        _writer.Committed -= Committed;
        _meter.Dispose();
        Provider.Dispose();
    }

    private static KeyValuePair<string, object?> Label(string name, string value) => new(name, value);

    private static double One(bool @is) => @is ? 1 : 0;

    private static double Size(string data)
    {
        string[] files = [LedgerFile.Name, LedgerFile.Name + "-wal"];
        return files.Select(f => new FileInfo(Path.Combine(data, f))).Where(f => f.Exists).Sum(f => (double)f.Length);
    }

    private void OfFixtures()
    {
        OfEach(MeasuredThing.Answers, f => One(f.Refused is null));
        OfEach(MeasuredThing.Held, f => One(f.Holds.Count > 0));
        OfEach(MeasuredThing.FirstPending, f => One(Math.Max(f.Served.Pick, f.Served.Place) > f.Progress.Since && f.Progress.Nests.IsEmpty));
        OfEach(MeasuredThing.Missed, f => One(f.Missed is not null));
        OfEach(MeasuredThing.RevisionsWaiting, f => f.Waiting.Count());
        OfEach(MeasuredThing.MeasurementAge, f => f.Measurement is { } m ? (_time.GetUtcNow() - m.At).TotalSeconds : null);
        OfEach(MeasuredThing.MeasurementFresh, f => f.Measurement is { } m ? (m.At + m.FreshFor - _time.GetUtcNow()).TotalSeconds : null);
    }

    private void OfPlant(PlantForwarding? plant)
    {
        if (plant is null)
        {
            return;
        }

        var begun = _time.GetUtcNow();
        Gauge(MeasuredThing.PlantConnected, () => [new(One(plant.State.Connected))]);
        Gauge(MeasuredThing.PlantBreaker, () => [new(One(plant.State.Waiting))]);
        Gauge(MeasuredThing.PlantWaiting, () => [new(plant.Lag.Entries)]);
        Gauge(MeasuredThing.PlantLag, () => [new((plant.Lag.Time ?? _time.GetUtcNow() - begun).TotalSeconds)]);
        Gauge(MeasuredThing.PlantFaults, () => [new(plant.State.Faults.Count)]);
    }

    private void OfEach(MeasuredThing thing, Func<FixtureState, double?> value) => Gauge(
        thing, () => _writer.Situation.Fixtures.Select(f => (f.Fixture, Value: value(f))).Where(p => p.Value is not null)
            .Select(p => new Measurement<double>(p.Value!.Value, Label("fixture", p.Fixture))));

    private void Gauge(MeasuredThing thing, Func<IEnumerable<Measurement<double>>> observe) =>
        _meter.CreateObservableGauge(thing.Instrument, observe, thing.Unit, thing.Help);

    private void Count(MeasuredThing thing, Func<IEnumerable<Measurement<long>>> observe) =>
        _meter.CreateObservableCounter(thing.Instrument, observe, thing.Unit, thing.Help);

    private Histogram<T> Histogram<T>(MeasuredThing thing)
        where T : struct => _meter.CreateHistogram<T>(thing.Instrument, thing.Unit, thing.Help);

    private void Answered(Ask ask, AskOutcome outcome, TimeSpan took)
    {
        var verb = Label("verb", ask.Verb);
        _asks.Add(1, verb, Label("reason", outcome.Refusal?.Info.Name ?? ""));
        _answerTime.Record(took.TotalSeconds, verb);
    }

    private void Committed(int asks, TimeSpan took)
    {
        _commitTime.Record(took.TotalSeconds);
        _commitAsks.Record(asks);
    }
}
