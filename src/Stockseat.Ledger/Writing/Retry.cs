using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Writing;

/// <summary>Whether an ask with a known request id is the first one again.</summary>
internal static class Retry
{
    public static bool Same(Ask ask, EntryBody first) => (ask, first) switch
    {
        (_, RefusalBody r) => r.Asked == ask.Verb && (ask.Fixture.Length == 0 || r.Fixture == ask.Fixture) && SameRefused(ask, r),
        (LocateAsk a, AnswerBody b) => a.Fixture == b.Fixture && a.Column == b.Nest[0] && a.Row == b.Nest[1] && a.Purpose.Name() == b.Purpose
            && (a.NominalMetres, a.WithinMetres) == (b.Nominal, b.Within)
            && (a.DiameterMetres is { } d ? d == b.Diameter && b.Measurement is null : b.Measurement is not null && (a.Lot is null || a.Lot == b.Lot)),
        (MeasureAsk a, MeasurementBody b) =>
            a.Fixture == b.Fixture && a.Gauge == b.Gauge && a.Lot == b.Lot && a.ReadingsMetres.SequenceEqual(b.Readings),
        (EmptiedAsk a, EmptiedBody b) => a.Fixture == b.Fixture,
        (ConfirmAsk a, ConfirmationBody b) => a.Serial == b.Confirms && SameNumbers(a, b.ReadBack),
        (AdoptAsk a, RevisionAdoptedBody b) => a.Fixture == b.Fixture && a.Number == b.Revision,
        (HoldAsk a, HeldBody b) => (a.Fixture, a.By, a.Why) == (b.Fixture, b.By, b.Why),
        (ReleaseAsk a, ReleasedBody b) => (a.Fixture, a.By, a.Why, a.Of) == (b.Fixture, b.By, b.Why, b.Of),
        _ => false,
    };

    public static EntryBody Refuse(Ask ask, EntryBody first)
    {
        var refusal = Refusal.Of(Reason.ValueMalformed, $"request id {ask.Caller.Request} belongs to another request (entry {first.Serial}); use a new id");
        var body = Decision.Refuse(ask, refusal);
        (body.Client, body.Cell, body.Address, body.Tag, _) = ask.Caller; // Not the id: it stays the first request's.
        return body;
    }

    private static bool SameRefused(Ask ask, RefusalBody r) => ask switch
    {
        LocateAsk a => r.Nest is [var column, var row] && (a.Column, a.Row, a.Purpose.Name(), a.Lot) == (column, row, r.Purpose, r.Lot)
            && (a.NominalMetres, a.WithinMetres) == (r.Nominal, r.Within)
            && (a.DiameterMetres is { } d ? d == r.Diameter && r.Measurement is null : r.Measurement is not null || r.Diameter is null),
        MeasureAsk a => a.Gauge == r.Gauge && a.Lot == r.Lot && r.Readings is not null && a.ReadingsMetres.SequenceEqual(r.Readings),
        ConfirmAsk a => a.Serial == r.Confirms && SameNumbers(a, r.ReadBack),
        AdoptAsk a => a.Number == r.Adopts,
        HoldAsk a => (a.By, a.Why) == (r.By, r.Why),
        ReleaseAsk a => (a.By, a.Why, a.Of) == (r.By, r.Why, r.Of),
        _ => true,
    };

    private static bool SameNumbers(ConfirmAsk ask, IReadOnlyDictionary<string, string>? read) =>
        ask.ReadBack.Count == (read?.Count ?? 0) && ask.ReadBack.All(p => read!.TryGetValue(p.Key, out var text) && text == p.Value);
}
