using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Seating.Frames;

namespace Stockseat.Ledger.Writing;

/// <summary>What an ask with a known request id gets.</summary>
internal static class Retry
{
    /// <summary>
    /// The first outcome, when it is the first ask again and its answer would still be given: a controller that uses one id for ever must
    /// not get the numbers of last week, nor any while the fixture is held. Else a refusal, which is an entry of its own.
    /// </summary>
    /// <param name="ask">The ask.</param>
    /// <param name="first">What the id led to.</param>
    /// <param name="decide">Decides the ask as a new one.</param>
    public static EntryBody Outcome(Ask ask, EntryBody first, Func<EntryBody> decide)
    {
        if (!Same(ask, first))
        {
            // A push that is refused voids the measurement; not by who may not push, nor of a fixture that there is not.
            return decide() is RefusalBody { Number: (int)Reason.NotPermitted or (int)Reason.FixtureUnknown } refusal
                ? WithoutId(refusal, ask)
                : Refuse(ask, first, $"request id {ask.Caller.Request} belongs to another request (entry {first.Serial}); use a new id");
        }

        if (ask.Denied is null && (ask, first) is not (LocateAsk, AnswerBody))
        {
            return first;
        }

        return decide() switch
        {
            RefusalBody refused => WithoutId(refused, ask),
            AnswerBody now when first is AnswerBody served && !Holds(served, now) =>
                Refuse(ask, first, $"request id {ask.Caller.Request} belongs to answer {first.Serial}, which holds no more: another revision or measurement stands; use a new id"),
            _ => first,
        };
    }

    private static bool Same(Ask ask, EntryBody first) => (ask, first) switch
    {
        (_, RefusalBody r) => r.Asked == ask.Verb && (ask.Fixture.Length == 0 || r.Fixture == ask.Fixture) && SameRefused(ask, r),
        (LocateAsk a, AnswerBody b) => a.Fixture == b.Fixture && a.Column == b.Nest[0] && a.Row == b.Nest[1] && a.Purpose.Name() == b.Purpose
            && (a.NominalMetres, a.WithinMetres) == (b.Nominal, b.Within)
            && (a.DiameterMetres is { } d ? d == b.Diameter && b.Measurement is null && a.Lot == b.Lot : b.Measurement is not null && (a.Lot is null || a.Lot == b.Lot)),
        (MeasureAsk a, MeasurementBody b) =>
            a.Fixture == b.Fixture && a.Gauge == b.Gauge && a.Lot == b.Lot && a.ReadingsMetres.SequenceEqual(b.Readings),
        (EmptiedAsk a, EmptiedBody b) => a.Fixture == b.Fixture,
        (ConfirmAsk a, ConfirmationBody b) => a.Serial == b.Confirms && SameNumbers(a, b.ReadBack),
        (AdoptAsk a, RevisionAdoptedBody b) => a.Fixture == b.Fixture && a.Number == b.Revision,
        (RecheckAsk a, RecheckBody b) => a.Fixture == b.Fixture && (a.By, a.Note, a.MasterMetres, a.WithinMetres) == (b.By, b.Note, b.Master, b.MasterWithin)
            && SamePlace(a, b.Nest, b.Found),
        (HoldAsk a, HeldBody b) => (a.Fixture, a.By, a.Why) == (b.Fixture, b.By, b.Why),
        (RollAsk a, RolledOverBody b) => (a.By, a.Why) == (b.By, b.Why),
        (DescribeLotAsk a, LotDescribedBody b) => (a.Lot, a.Terms) == (b.Lot, b.LotTerms),
        (ReleaseAsk a, ReleasedBody b) => (a.Fixture, a.By, a.Why, a.Of) == (b.Fixture, b.By, b.Why, b.Of),
        _ => false,
    };

    private static bool Holds(AnswerBody served, AnswerBody now) =>
        (served.Digest, served.Measurement) == (now.Digest, now.Measurement) && served.Position.SequenceEqual(now.Position) && served.ShiftBase.SequenceEqual(now.ShiftBase);

    private static EntryBody Refuse(Ask ask, EntryBody first, string what) =>
        WithoutId(Decision.Refuse(ask, Refusal.Of(Reason.ValueMalformed, what)) with { RetryOf = first.Serial }, ask);

    /// <summary>The id stays the first request's.</summary>
    private static EntryBody WithoutId(EntryBody body, Ask ask)
    {
        (body.Client, body.Cell, body.Address, body.Tag, _) = ask.Caller;
        body.Request = null;
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
        RecheckAsk a => (a.By, a.Note, a.MasterMetres, a.WithinMetres) == (r.By, r.Note, r.Diameter, r.MasterWithin) && SamePlace(a, r.Nest, r.Found),
        HoldAsk a => (a.By, a.Why) == (r.By, r.Why),
        DescribeLotAsk a => (a.Lot, a.Terms) == (r.Lot, r.LotTerms),
        ReleaseAsk a => (a.By, a.Why, a.Of) == (r.By, r.Why, r.Of),
        _ => true,
    };

    private static bool SamePlace(RecheckAsk ask, int[]? nest, double[]? found) =>
        nest is [var column, var row] && found is [var x, var y, var z] && (ask.Column, ask.Row) == (column, row) && ask.FoundMetres == new Vector3(x, y, z);

    private static bool SameNumbers(ConfirmAsk ask, IReadOnlyDictionary<string, string>? read) =>
        ask.ReadBack.Count == (read?.Count ?? 0) && ask.ReadBack.All(p => read!.TryGetValue(p.Key, out var text) && text == p.Value);
}
