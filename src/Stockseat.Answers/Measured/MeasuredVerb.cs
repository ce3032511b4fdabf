using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Measured;

/// <summary>A gauge station pushes a diameter.</summary>
internal sealed class MeasuredVerb : Verb<MeasureAsk, MeasurementBody>
{
    public override string Name => MeasureAsk.VerbName;

    public override EntryKind Kind { get; } = new MeasurementKind();

    public override bool RestsOnRevision => true;

    public override bool RefusalNamesRevisionInForce => true;

    public override IReadOnlyList<string> RefusalNewestOf(RefusalBody body) => VoidingPush.Is(body) ? [NewestEntries.Measured] : [];

    public override Situation ApplyRefusal(Situation situation, RefusalBody body) => body.Fixture is { } fixture && VoidingPush.Is(body)
        ? situation.With(situation.FindOrNew(fixture) with
        {
            Measurement = null,
            NoMeasurement = $"the last measurement was refused (entry {body.Serial}, {body.Reason})",
        })
        : situation;

    /// <summary>A refused push leaves no measurement: when the same is pushed again, a measurement that was made meanwhile must not stay.</summary>
    public override string? LapsedRefusal(RefusalBody first, DecidedAfresh now) => now.MeasuredSince(first);

    public override string? NotTaken(Ask ask) => $"this push was not taken, and no measurement of {ask.Fixture} is used until a push is taken: push it again";

    public override EntryBody Undecided(Ask ask, Refusal refusal, Situation situation)
    {
        var push = (MeasureAsk)ask;
        return MeasuredDecision.Refuse(push, refusal, situation.Find(push.Fixture)) with
        {
            Readings = push.ReadingsMetres.Count == 0 ? null : push.ReadingsMetres,
            Undecided = true,
        };
    }

    protected override EntryBody Decide(MeasureAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        MeasuredDecision.Decide(ask, situation, at);

    protected override MeasureAsk AskOf(MeasurementBody b) => new(Caller.Of(b), b.Fixture ?? "")
    {
        ReadingsMetres = b.Readings,
        Unit = b.Unit,
        Gauge = b.Gauge,
        Terms = new(b.Gauge, b.Agreement, TimeSpan.FromTicks((long)Math.Round(b.FreshFor * TimeSpan.TicksPerSecond))) { Limits = b.Limits },
        Lot = b.Lot,
        LotTerms = b.LotTerms,
        Since = b.Since,
        Waited = b.Waited,
    };

    protected override MeasureAsk? AskOfRefused(RefusalBody b) => b.Readings is not { } readings ? null : new(Caller.Of(b), b.Fixture ?? "")
    {
        ReadingsMetres = readings,
        Gauge = b.Gauge,
        Terms = b.Number == (int)Reason.GaugeUnknown ? null : new(b.Gauge, b.Agreement, TimeSpan.Zero),
        Lot = b.Lot,
        LotTerms = b.LotTerms,
        Since = b.Since,
        Waited = b.Waited,
        ReadingsSent = b.Sent,
    };

    protected override bool IsSame(MeasureAsk a, MeasurementBody b) =>
        a.Fixture == b.Fixture && a.Gauge == b.Gauge && a.Lot == b.Lot && a.ReadingsMetres.SequenceEqual(b.Readings);

    protected override bool IsSameRefused(MeasureAsk a, RefusalBody r) =>
        a.Gauge == r.Gauge && a.Lot == r.Lot && r.Readings is not null && a.ReadingsMetres.SequenceEqual(r.Readings);

    protected override string? Lapsed(MeasurementBody first, DecidedAfresh now) => now.Of(first) switch
    {
        { Measurement: { } standing } => standing.Serial == first.Serial ? null : $"measurement {standing.Serial} is newer",
        { NoMeasurement: var why } => why,
        null => "the fixture is gone",
    };
}
