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

    public override IReadOnlyList<string> RefusalNewestOf(RefusalBody body) => VoidingPush.Is(body) ? [NewestEntries.MeasuredAt(body.Nest)] : [];

    public override Situation ApplyRefusal(Situation situation, RefusalBody body)
    {
        if (body.Fixture is not { } fixture || !VoidingPush.Is(body))
        {
            return situation;
        }

        var why = $"the last measurement was refused (entry {body.Serial}, {body.Reason})";
        return body.Nest is { } nest ? situation.WithMeasured(fixture, nest, new(body.Serial, null, why))
            : situation.With(situation.FindOrNew(fixture) with { Measurement = null, NoMeasurement = why });
    }

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
        LengthMetres = b.Length,
        Nest = b.Nest,
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
        LengthMetres = b.Length,
        Nest = b.Nest,
        Since = b.Since,
        Waited = b.Waited,
        ReadingsSent = b.Sent,
    };

    protected override bool IsSame(MeasureAsk a, MeasurementBody b) =>
        a.Fixture == b.Fixture && a.Gauge == b.Gauge && a.Lot == b.Lot && SameNest(a, b.Nest) && a.LengthMetres == b.Length
        && a.ReadingsMetres.SequenceEqual(b.Readings);

    protected override bool IsSameRefused(MeasureAsk a, RefusalBody r) =>
        a.Gauge == r.Gauge && a.Lot == r.Lot && SameNest(a, r.Nest) && a.LengthMetres == r.Length && r.Readings is not null
            && a.ReadingsMetres.SequenceEqual(r.Readings);

    protected override string? Lapsed(MeasurementBody first, DecidedAfresh now) => now.Of(first) switch
    {
        { Load: var load } when first.Nest is [var column, var row] => load?.Measured.GetValueOrDefault((column, row)) switch
        {
            null => "the nests were emptied or loaded anew since",
            { Serial: var serial } => serial == first.Serial ? null : $"entry {serial} is newer",
        },
        { Measurement: { } standing } => standing.Serial == first.Serial ? null : $"measurement {standing.Serial} is newer",
        { NoMeasurement: var why } => why,
        null => "the fixture is gone",
    };

    private static bool SameNest(MeasureAsk ask, int[]? nest) => ask.Nest is null ? nest is null : nest is not null && ask.Nest.SequenceEqual(nest);
}
