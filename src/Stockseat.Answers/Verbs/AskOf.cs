using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Verbs;

/// <summary>The ask that an entry came from, rebuilt from what its body holds of it. Null: the body does not hold all of it.</summary>
internal static class AskOf
{
    /// <summary>Of an entry that is no refusal.</summary>
    public static Ask? Entry(EntryBody body) => body switch
    {
        AnswerBody b => Answer(b),
        MeasurementBody b => new MeasureAsk(Caller(b), b.Fixture ?? "")
        {
            ReadingsMetres = b.Readings,
            Unit = b.Unit,
            Gauge = b.Gauge,
            Terms = new(b.Gauge, b.Agreement, TimeSpan.FromTicks((long)Math.Round(b.FreshFor * TimeSpan.TicksPerSecond))) { Limits = b.Limits },
            Lot = b.Lot,
            LotTerms = b.LotTerms,
            Since = b.Since,
            Waited = b.Waited,
        },
        EmptiedBody b => new EmptiedAsk(Caller(b), b.Fixture ?? "") { Undecided = b.Undecided },
        ConfirmationBody b => new ConfirmAsk(Caller(b), b.Confirms) { ReadBack = b.ReadBack ?? new Dictionary<string, string>() },
        HeldBody b => new HoldAsk(Caller(b), b.Fixture ?? "") { By = b.By, Why = b.Why },
        ReleasedBody b => new ReleaseAsk(Caller(b), b.Fixture ?? "") { By = b.By, Why = b.Why, Of = b.Of },
        RecheckBody b => Recheck(b),
        LotDescribedBody b => new DescribeLotAsk(Caller(b), b.Lot) { Terms = b.LotTerms, Configured = false },
        RolledOverBody { IsEnd: true, By: { } by, Why: { } why, Next: { } next } b => new RollAsk(Caller(b)) { By = by, Why = why, Next = next },
        _ => null,
    };

    /// <summary>Of a refusal, by its verb.</summary>
    public static Ask? Refused(RefusalBody b)
    {
        Ask? ask = b.Asked switch
        {
            "locate" => Locate(b),
            "measured" => b.Readings is null ? null : Measure(b),
            "emptied" => new EmptiedAsk(Caller(b), b.Fixture ?? ""),
            "confirm" => b.Confirms is not { } serial ? null : Confirm(b, serial),
            "hold" => b is { By: { } by, Why: { } why } ? new HoldAsk(Caller(b), b.Fixture ?? "") { By = by, Why = why } : null,
            "release" => b is { By: { } by, Why: { } why, Of: { } of } ? new ReleaseAsk(Caller(b), b.Fixture ?? "") { By = by, Why = why, Of = of } : null,
            "recheck" => Recheck(b),
            "describe-lot" => b is { Lot: { } lot, LotTerms: { } terms }
                ? new DescribeLotAsk(Caller(b), lot) { Terms = terms, Configured = b.Number == (int)Reason.ValueMalformed } : null,
            "roll" => b is { By: { } by, Why: { } why } ? new RollAsk(Caller(b)) { By = by, Why = why, Next = "" } : null,
            "adopt" => b.Adopts is { } number
                ? new AdoptAsk(Caller(b), b.Fixture ?? "", number) { By = "", Why = "", Folder = null, Digest = b.AdoptsDigest } : null,
            _ => null,
        };
        var ofAnswer = b is { Asked: "confirm", Fixture: not null }; // who may not confirm this answer may confirm others
        return b.Number == (int)Reason.NotPermitted && !ofAnswer ? ask is null ? null : ask with { Denied = b.Refusal } : ask;
    }

    internal static Caller Caller(EntryBody b) => new(b.Client, b.Cell, b.Address, b.Tag, b.Request);

    private static LocateAsk? Answer(AnswerBody b) => b.Nest is not [var column, var row] || Purpose(b.Purpose) is not { } purpose ? null
        : new(Caller(b), b.Fixture ?? "")
        {
            DiameterMetres = b.Measurement is null ? b.Diameter : null,
            // With a measurement it is the measurement's lot, which need not have been asked for.
            Lot = b.Measurement is null || b.LotTerms is not null ? b.Lot : null,
            LotTerms = b.LotTerms,
            Purpose = purpose,
            NominalMetres = b.Nominal,
            WithinMetres = b.Within,
            Column = column,
            Row = row,
            Unit = b.ServedIn,
            Decimals = b.Decimals,
        };

    private static LocateAsk? Locate(RefusalBody b) => b.Nest is not [var column, var row] || Purpose(b.Purpose) is not { } purpose ? null
        : new(Caller(b), b.Fixture ?? "")
        {
            DiameterMetres = b.Measurement is null ? b.Diameter : null,
            Lot = b.Lot,
            LotTerms = b.LotTerms,
            Purpose = purpose,
            NominalMetres = b.Nominal,
            WithinMetres = b.Within,
            Column = column,
            Row = row,
        };

    private static MeasureAsk Measure(RefusalBody b) => new(Caller(b), b.Fixture ?? "")
    {
        ReadingsMetres = b.Readings!,
        Gauge = b.Gauge,
        Terms = b.Number == (int)Reason.GaugeUnknown ? null : new(b.Gauge, b.Agreement, TimeSpan.Zero),
        Lot = b.Lot,
        LotTerms = b.LotTerms,
        Since = b.Since,
        Waited = b.Waited,
    };

    private static ConfirmAsk Confirm(RefusalBody b, long serial) => new(Caller(b), serial)
    {
        ReadBack = b.ReadBack ?? new Dictionary<string, string>(),
        Fixtures = b is { Number: (int)Reason.NotPermitted, Fixture: not null } && !IsOfAnother(b) ? new HashSet<string>() : null,
        OwnAnswersOnly = IsOfAnother(b),
    };

    private static bool IsOfAnother(RefusalBody b) => b is { Number: (int)Reason.NotPermitted, Limits: { } limits } && limits.ContainsKey(Confirming.ServedTo);

    private static RecheckAsk? Recheck(RecheckBody b) => b is not { Nest: [var column, var row], Found: [var x, var y, var z] } ? null
        : new(Caller(b), b.Fixture ?? "")
        {
            By = b.By,
            Note = b.Note,
            MasterMetres = b.Master,
            WithinMetres = b.MasterWithin,
            Column = column,
            Row = row,
            FoundMetres = new Vector3(x, y, z),
            RefuseAfterMiss = b.RefuseAfterMiss,
        };

    private static RecheckAsk? Recheck(RefusalBody b) => b is not { Nest: [var column, var row], Found: [var x, var y, var z], By: { } by, Diameter: { } master } ? null
        : new(Caller(b), b.Fixture ?? "")
        {
            By = by,
            Note = b.Note,
            MasterMetres = master,
            WithinMetres = b.MasterWithin,
            Column = column,
            Row = row,
            FoundMetres = new Vector3(x, y, z),
        };

    private static Purpose? Purpose(string? name) => name switch
    {
        "pick" => Entries.Purpose.Pick,
        "place" => Entries.Purpose.Place,
        _ => null,
    };
}
