using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Recheck;

/// <summary>A master of known diameter was seated in a nest and found again.</summary>
internal sealed class RecheckVerb : Verb<RecheckAsk, RecheckBody>
{
    public override string Name => RecheckAsk.VerbName;

    public override EntryKind Kind { get; } = new RecheckKind();

    public override bool RestsOnRevision => true;

    public override bool RefusalNamesRevisionInForce => true;

    protected override EntryBody Decide(RecheckAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        RecheckDecision.Decide(ask, situation);

    protected override RecheckAsk? AskOf(RecheckBody b) => Found(b, b.By, b.Master, b.Nest, b.Found) is not { } ask ? null
        : ask with { Note = b.Note, WithinMetres = b.MasterWithin, RefuseAfterMiss = b.RefuseAfterMiss };

    protected override RecheckAsk? AskOfRefused(RefusalBody b) => Found(b, b.By, b.Diameter, b.Nest, b.Found) is not { } ask ? null
        : ask with { Note = b.Note, WithinMetres = b.MasterWithin };

    protected override bool IsSame(RecheckAsk a, RecheckBody b) =>
        a.Fixture == b.Fixture && (a.By, a.Note, a.MasterMetres, a.WithinMetres) == (b.By, b.Note, b.Master, b.MasterWithin)
        && SamePlace(a, b.Nest, b.Found);

    protected override bool IsSameRefused(RecheckAsk a, RefusalBody r) =>
        (a.By, a.Note, a.MasterMetres, a.WithinMetres) == (r.By, r.Note, r.Diameter, r.MasterWithin) && SamePlace(a, r.Nest, r.Found);

    protected override string? Lapsed(RecheckBody first, DecidedAfresh now) =>
        now.Body is not RecheckBody n || (n.Digest, n.Passed, n.Refuses) != (first.Digest, first.Passed, first.Refuses)
            || !n.Predicted.SequenceEqual(first.Predicted)
            ? "it would be judged differently now"
        : now.Of(first)?.Missed is { } miss && miss.Serial > first.Serial ? $"recheck {miss.Serial} has missed since" : null;

    private static RecheckAsk? Found(EntryBody entry, string? by, double? master, int[]? nest, double[]? found) =>
        by is null || master is null || nest is not [var column, var row] || found is not [var x, var y, var z] ? null
        : new(Caller.Of(entry), entry.Fixture ?? "")
        {
            By = by,
            MasterMetres = master.Value,
            Column = column,
            Row = row,
            FoundMetres = new Vector3(x, y, z),
        };

    private static bool SamePlace(RecheckAsk ask, int[]? nest, double[]? found) => nest is [var column, var row] && found is [var x, var y, var z]
        && (ask.Column, ask.Row) == (column, row) && ask.FoundMetres == new Vector3(x, y, z);
}
