namespace Stockseat.Service.Metrics;

/// <summary>What is measured. The names, units and labels are in install/metrics.md; who has alerts and charts relies on them.</summary>
/// <param name="Instrument">The name of the instrument.</param>
/// <param name="Unit">Its unit, in UCUM; null: a number.</param>
/// <param name="Help">One sentence.</param>
/// <param name="Boundaries">For a histogram, the upper ends of its buckets.</param>
public sealed record MeasuredThing(string Instrument, string? Unit, string Help, double[]? Boundaries = null)
{
    private static readonly double[] Seconds =
        [0.00005, 0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5];

    private static readonly double[] Counts = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000];

    public static readonly MeasuredThing Asks = new("stockseat.asks", null, "Asks that were answered or refused.");
    public static readonly MeasuredThing AnswerTime = new("stockseat.answer.time", "s", "From an ask to its answer, which is on the disk by then.", Seconds);
    public static readonly MeasuredThing CommitTime = new("stockseat.commit.time", "s", "Deciding, writing and syncing of the asks of one commit.", Seconds);
    public static readonly MeasuredThing CommitAsks = new("stockseat.commit.asks", null, "How many asks, and entries of the service itself, one commit had.",
        Counts);
    public static readonly MeasuredThing Waiting = new("stockseat.asks.waiting", null, "Asks that wait for the ledger's writer.");
    public static readonly MeasuredThing Connections = new("stockseat.connections", null, "Open connections.");
    public static readonly MeasuredThing TurnedAway = new("stockseat.turned.away", null, "Connections and requests without an entry in the ledger.");
    public static readonly MeasuredThing LogDropped = new("stockseat.log.dropped", null, "Lines of the log that nobody read in time.");
    public static readonly MeasuredThing Writable = new("stockseat.ledger.writable", null, "1 when the ledger can be written; else every ask is refused.");
    public static readonly MeasuredThing Serial = new("stockseat.ledger.serial", null, "The last entry.");
    public static readonly MeasuredThing Size = new("stockseat.ledger.size", "By", "The ledger's file and its log.");
    public static readonly MeasuredThing Unsealed = new("stockseat.ledger.unsealed", null, "Entries after the newest seal.");
    public static readonly MeasuredThing SealAge = new("stockseat.ledger.seal.age", "s", "Age of the newest seal; absent when there is none.");
    public static readonly MeasuredThing Answers = new("stockseat.fixture.answers", null, "1 when asks for the fixture are not all refused.");
    public static readonly MeasuredThing Held = new("stockseat.fixture.held", null, "1 while somebody works at the fixture.");
    public static readonly MeasuredThing FirstPending =
        new("stockseat.fixture.first.pending", null, "1 when a first answer was served and no move was carried out yet.");
    public static readonly MeasuredThing Missed = new("stockseat.fixture.recheck.missed", null, "1 when the last recheck missed.");
    public static readonly MeasuredThing RevisionsWaiting =
        new("stockseat.fixture.revisions.waiting", null, "Higher revisions that nobody adopted yet.");
    public static readonly MeasuredThing MeasurementAge =
        new("stockseat.measurement.age", "s", "Age of the measurement that answers come from; absent when there is none.");
    public static readonly MeasuredThing MeasurementFresh =
        new("stockseat.measurement.fresh.left", "s", "How long that measurement may still be used; below 0: no longer.");
    public static readonly MeasuredThing PortConnected = new("stockseat.gauge.port.connected", null, "1 when the gauge of a reading port is connected.");
    public static readonly MeasuredThing CertificateLeft = new("stockseat.certificate.left", "s", "How long the service's certificate is still valid.");
    public static readonly MeasuredThing PlantConnected = new("stockseat.plant.connected", null, "1 when the plant store was reached at the last attempt.");
    public static readonly MeasuredThing PlantBreaker =
        new("stockseat.plant.breaker.open", null, "1 while no attempt is made, because so many failed.");
    public static readonly MeasuredThing PlantWaiting = new("stockseat.plant.waiting", null, "Entries that wait to be sent to the plant store.");
    public static readonly MeasuredThing PlantLag =
        new("stockseat.plant.lag", "s", "How long ago everything was stored the last time, or the service started; 0 when nothing waits.");
    public static readonly MeasuredThing PlantFaults =
        new("stockseat.plant.faults", null, "What keeps ledgers from being sent, such as a fork: each needs a person.");
    public static readonly MeasuredThing Build = new("stockseat.build.info", null, "1, with the program's version.");

    /// <summary>All of them, in the order of the document.</summary>
    public static IReadOnlyList<MeasuredThing> All { get; } =
    [
        Asks, AnswerTime, CommitTime, CommitAsks, Waiting, Connections, TurnedAway, LogDropped, Writable, Serial, Size, Unsealed, SealAge, Answers, Held,
        FirstPending, Missed, RevisionsWaiting, MeasurementAge, MeasurementFresh, PortConnected, CertificateLeft,
        PlantConnected, PlantBreaker, PlantWaiting, PlantLag, PlantFaults, Build,
    ];
}
