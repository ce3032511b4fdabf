using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Locate;

/// <summary>Where is the origin, or a nest, now? What answers and trials have in common.</summary>
/// <typeparam name="T">The type of its entries.</typeparam>
internal abstract class ServingVerb<T> : Verb<LocateAsk, T>
    where T : ServedBody
{
    public override bool RestsOnRevision => true;

    public override bool RefusalNamesRevisionInForce => true;

    protected override EntryBody Decide(LocateAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        LocateDecision.Decide(ask, situation, at);

    protected override LocateAsk? AskOf(T body) => Inputs(body, body) is not { } ask ? null : ask with
    {
        // When a measurement is used, this is the lot of the measurement, which the ask need not have named.
        Lot = body.Measurement is null || body.LotTerms is not null ? body.Lot : null,
        ProvingRequired = body.Proving == ServedBody.ProvingRequired,
        IsTrial = body is TrialBody,
        IsNext = body.Load is not null,
        After = body.After,
        IsGrid = body is GridBody,
        Unit = body.ServedIn,
        Decimals = body.Decimals,
    };

    protected override LocateAsk? AskOfRefused(RefusalBody body) =>
        Inputs(body, body) is { } ask ? ask with {
                DiameterSent = body.Sent is [var sent] ? sent : null,
                IsTrial = Name == LocateAsk.TrialName,
                IsNext = Name == LocateAsk.NextName || body.Next == true,
                IsGrid = Name == LocateAsk.GridName,
                After = body.After,
            }
            : null;

    protected override bool IsSame(LocateAsk a, T b) =>
        a.Fixture == b.Fixture && a.IsNext == b.Load is not null && (a.IsNext || (a.Column == b.Nest[0] && a.Row == b.Nest[1]))
        && a.Purpose.Name() == b.Purpose
        && (a.NominalMetres, a.WithinMetres) == (b.Nominal, b.Within) && (a.LengthMetres is null || a.LengthMetres == b.Length)
        && (a.DiameterMetres is { } d ? d == b.Diameter && b.Measurement is null && a.Lot == b.Lot
            : b.Measurement is not null && (a.Lot is null || a.Lot == b.Lot));

    protected override bool IsSameRefused(LocateAsk a, RefusalBody r) =>
        r.Nest is [var column, var row] && (a.Column, a.Row, a.Purpose.Name(), a.Lot) == (column, row, r.Purpose, r.Lot)
        && (a.NominalMetres, a.WithinMetres) == (r.Nominal, r.Within)
        && (a.DiameterMetres is { } d ? d == r.Diameter && r.Measurement is null : r.Measurement is not null || r.Diameter is null);

    protected override string? Lapsed(T first, DecidedAfresh now) =>
        now.Body is T n && (first.Digest, first.Measurement) == (n.Digest, n.Measurement)
            && first.Position.SequenceEqual(n.Position) && first.ShiftBase.SequenceEqual(n.ShiftBase)
            ? null
            : "another revision or measurement counts now";

    private static LocateAsk? Inputs(EntryBody entry, ILocateInputs b) =>
        b.Nest is not [var column, var row] || PurposeNames.Find(b.Purpose) is not { } purpose ? null
        : new(Caller.Of(entry), entry.Fixture ?? "")
        {
            DiameterMetres = b.Measurement is null ? b.Diameter : null,
            LengthMetres = b.Measurement is null ? b.Length : null,
            Lot = b.Lot,
            LotTerms = b.LotTerms,
            Purpose = purpose,
            NominalMetres = b.Nominal,
            WithinMetres = b.Within,
            Column = column,
            Row = row,
        };
}
