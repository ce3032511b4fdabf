using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Seating.Frames;

namespace Stockseat.Ledger.Sessions;

/// <summary>Whether an ask is the one that an entry came from, as far as its body says.</summary>
internal static class SameAsk
{
    /// <summary>Whether it is.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="first">The entry.</param>
    public static bool Is(Ask ask, EntryBody first) => (ask, first) switch
    {
        (_, RefusalBody r) => r.Asked == ask.Verb && (ask.Fixture.Length == 0 || r.Fixture == ask.Fixture) && SameRefused(ask, r),
        (LocateAsk a, AnswerBody b) => a.Fixture == b.Fixture && a.Column == b.Nest[0] && a.Row == b.Nest[1] && a.Purpose.Name() == b.Purpose
            && (a.NominalMetres, a.WithinMetres) == (b.Nominal, b.Within)
            && (a.DiameterMetres is { } d ? d == b.Diameter && b.Measurement is null && a.Lot == b.Lot : b.Measurement is not null && (a.Lot is null || a.Lot == b.Lot)),
        (MeasureAsk a, MeasurementBody b) =>
            a.Fixture == b.Fixture && a.Gauge == b.Gauge && a.Lot == b.Lot && a.ReadingsMetres.SequenceEqual(b.Readings),
        (EmptiedAsk a, EmptiedBody b) => a.Fixture == b.Fixture,
        (ConfirmAsk a, ConfirmationBody b) => a.Serial == b.Confirms && SameNumbers(a, b.ReadBack),
        (AdoptAsk a, RevisionAdoptedBody b) => a.Fixture == b.Fixture && a.Number == b.Revision
            && (a.Digest is null || b.Digest?.StartsWith(a.Digest, StringComparison.Ordinal) == true),
        (RecheckAsk a, RecheckBody b) => a.Fixture == b.Fixture && (a.By, a.Note, a.MasterMetres, a.WithinMetres) == (b.By, b.Note, b.Master, b.MasterWithin)
            && SamePlace(a, b.Nest, b.Found),
        (HoldAsk a, HeldBody b) => (a.Fixture, a.By, a.Why) == (b.Fixture, b.By, b.Why),
        (RollAsk a, RolledOverBody b) => (a.By, a.Why) == (b.By, b.Why),
        (DescribeLotAsk a, LotDescribedBody b) => (a.Lot, a.Terms) == (b.Lot, b.LotTerms),
        (ReleaseAsk a, ReleasedBody b) => (a.Fixture, a.By, a.Why, a.Of) == (b.Fixture, b.By, b.Why, b.Of),
        _ => false,
    };

    private static bool SameRefused(Ask ask, RefusalBody r) => ask switch
    {
        LocateAsk a => r.Nest is [var column, var row] && (a.Column, a.Row, a.Purpose.Name(), a.Lot) == (column, row, r.Purpose, r.Lot)
            && (a.NominalMetres, a.WithinMetres) == (r.Nominal, r.Within)
            && (a.DiameterMetres is { } d ? d == r.Diameter && r.Measurement is null : r.Measurement is not null || r.Diameter is null),
        MeasureAsk a => a.Gauge == r.Gauge && a.Lot == r.Lot && r.Readings is not null && a.ReadingsMetres.SequenceEqual(r.Readings),
        ConfirmAsk a => a.Serial == r.Confirms && SameNumbers(a, r.ReadBack),
        AdoptAsk a => (a.Number, a.Digest) == (r.Adopts, r.AdoptsDigest),
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
