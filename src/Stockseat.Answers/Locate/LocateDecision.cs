using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Locate;

/// <summary>Decides a locate: which diameter counts, which revision, and where the nest is.</summary>
internal static class LocateDecision
{
    /// <summary>The most nests that are answered at once. Our own choice: a larger grid takes longer than other asks should wait.</summary>
    private const int MostOfGrid = 10_000;

    public static EntryBody Decide(LocateAsk ask, Situation situation, DateTimeOffset at)
    {
        var state = situation.Find(ask.Fixture);
        StandingMeasurement? measurement = null;
        NestPosition position = default;
        var lot = situation.LotTerms(ask.Lot, ask.LotTerms);
        var diameter = ask.DiameterMetres;
        var refusal = ask.Denied
            ?? (state is null ? Unserved.Unknown(ask.Fixture) : state.Refused)
            ?? (ask.IsNext ? NestChoice.Take(ref ask, state!) : null)
            ?? (ask.IsGrid && (long)state!.InForce!.Layout.Columns * state.InForce.Layout.Rows > MostOfGrid ? TooLarge(ask) : null)
            ?? Asked(ask, state!.InForce!)
            ?? (diameter is null ? Measured(ask, state, situation.StepBack, at, out measurement) : null);
        diameter ??= measurement?.DiameterMetres;
        refusal ??= ask.Rules > 1 && ask.Purpose == Purpose.Place ? AboveRaw(ask, state!, diameter!.Value) : null;
        refusal ??= OfLot(ask, lot, diameter!.Value, measurement);
        refusal ??= Near(ask, diameter!.Value, measurement);
        double? length = null;
        double? alongNormal = null;
        if (refusal is null && state!.InForce!.Grip is not null)
        {
            length = ask.DiameterMetres is null ? measurement!.LengthMetres : ask.LengthMetres;
            refusal = StockLength.Judge(state.InForce, length, out alongNormal);
        }

        refusal ??= Positioning.Judge(state!.InForce!, diameter!.Value, ask.Purpose, measurement?.From, ask.Column, ask.Row, out position,
            Sent(ask, measurement), alongNormal);
        var beside = refusal is null ? NestChoice.Beside(ask, state!) : null;
        refusal ??= beside is { } there ? Fit.Beside(state!.InForce!, diameter!.Value, ask.Purpose, there) : null;
        return refusal is null
            ? Answer(ask, state!, new(diameter!.Value, length, measurement, lot, position, beside), at)
            : ask.Refuse(refusal, state) with
            {
                Purpose = ask.Purpose.Name(),
                Nest = [ask.Column, ask.Row],
                Diameter = diameter,
                Length = length ?? (ask.DiameterMetres is null ? null : ask.LengthMetres),
                Measurement = measurement?.Serial,
                From = measurement?.From,
                Uncertainty = position.Sure,
                Lot = ask.Lot,
                LotTerms = lot,
                Nominal = ask.NominalMetres,
                Within = ask.WithinMetres,
                Sent = ask.DiameterSent is { } sent ? [sent] : null,
                Next = ask is { IsNext: true, IsTrial: true } ? true : null,
                After = ask.After,
            };
    }

    private static Refusal TooLarge(LocateAsk ask) =>
        Refusal.Of(Reason.ValueMalformed, $"{ask.Fixture} has more than {MostOfGrid} nests; ask for them one by one");

    /// <summary>The stated diameter as it was written; null when the diameter is a measured one.</summary>
    private static string? Sent(LocateAsk ask, StandingMeasurement? measurement) => measurement is null ? ask.DiameterSent : null;

    /// <summary>The parts that an answer is made of.</summary>
    private readonly record struct Found(
        double DiameterMetres, double? LengthMetres, StandingMeasurement? Measurement, LotTerms? Lot, NestPosition Position, double? Beside);

    private static Refusal? Asked(LocateAsk ask, Revision revision) =>
        Positioning.NoNest(revision, ask.Column, ask.Row) is { } unknown ? unknown
        : ask.Purpose == Purpose.Place && ask.DiameterMetres is null && !revision.ReturnsRawStock
            ? Refusal.Of(Reason.DiameterMissing, $"a place into {ask.Fixture} needs the finished diameter: the measurement is of the raw stock")
            : null;

    private static Refusal? Measured(LocateAsk ask, FixtureState state, StepBack? back, DateTimeOffset at, out StandingMeasurement? measurement)
    {
        measurement = state.Measurement;
        if (ask.IsNext && state.Load!.Measured.GetValueOrDefault((ask.Column, ask.Row)) is { } own)
        {
            measurement = own.Measurement;
            if (measurement is null)
            {
                return Refusal.Of(Reason.MeasurementMissing, $"nest {ask.Column},{ask.Row} of {ask.Fixture} has no measurement that can be used: {own.Why}");
            }
        }

        if (UsableMeasurement.Refused(ask.Fixture, measurement, state.NoMeasurement, back, at) is { } unusable)
        {
            return unusable;
        }

        if (ask.IsNext && ask.Lot is null && measurement == state.Measurement && state.Load!.Lot is { } loaded && loaded != measurement!.Lot)
        {
            return Refusal.Of(
                Reason.MeasurementOutsideLot,
                $"measurement {measurement.Serial} of {ask.Fixture} is of {(measurement.Lot is null ? "no lot" : $"lot {measurement.Lot}")}; load "
                    + $"{state.Load.Serial} is of lot {loaded}",
                ("lot", measurement.Lot ?? ""), ("asked", loaded));
        }

        return ask.Lot is not null && ask.Lot != measurement!.Lot
            ? Refusal.Of(
                Reason.MeasurementOutsideLot,
                $"measurement {measurement.Serial} of {ask.Fixture} is of {(measurement.Lot is null ? "no lot" : $"lot {measurement.Lot}")}; lot "
                    + $"{ask.Lot} was asked for",
                ("lot", measurement.Lot ?? ""), ("asked", ask.Lot))
            : null;
    }

    /// <summary>A finished piece is not larger than the raw stock that it was made of, but for what the gauge may be off.</summary>
    private static Refusal? AboveRaw(LocateAsk ask, FixtureState state, double diameter)
    {
        if (state.Measurement is not { } raw)
        {
            return null;
        }

        var (off, larger) = (raw.From.Limits?.LimitsOfError ?? 0, diameter - raw.DiameterMetres);
        return larger <= off + Rounding.Metres ? null : Refusal.Of(
            Reason.DiameterAboveRaw,
            unit => $"a place of {Refusal.Sent(ask.DiameterSent, unit.FixedText(diameter), unit)} is {unit.FixedText(larger)} larger than the raw stock, "
                + $"{unit.FixedText(raw.DiameterMetres)} by measurement {raw.Serial}" + (off > 0 ? $"; the gauge may be off by {unit.FixedText(off)}" : ""),
            ("diameter_metres", LengthText.Metres(diameter)), ("raw_metres", LengthText.Metres(raw.DiameterMetres)), ("limit_metres", LengthText.Metres(off)));
    }

    /// <summary>The diameter that is used has to belong to the lot, by what is known of the lot now.</summary>
    private static Refusal? OfLot(LocateAsk ask, LotTerms? lot, double diameter, StandingMeasurement? measurement)
    {
        if (ask.Lot is not { } name)
        {
            return null;
        }

        return lot is null ? LotFit.Unknown(name)
            : measurement is null && lot.Least is null ? Refusal.Of(Reason.LotUnknown, $"lot {name} has no nominal and no tolerance, so nobody can "
                + $"know whether a stated diameter belongs to it")
            : LotFit.Judge(name, lot, diameter, What(ask, measurement), Sent(ask, measurement));
    }

    private static string What(LocateAsk ask, StandingMeasurement? measurement) =>
        measurement is null ? "the stated diameter" : $"measurement {measurement.Serial} of {ask.Fixture}";

    /// <summary>The diameter that is used has to be as near to the nominal as was asked; compared to a picometre, since both numbers are rounded.</summary>
    private static Refusal? Near(LocateAsk ask, double diameter, StandingMeasurement? measurement)
    {
        if (ask is not { NominalMetres: { } nominal, WithinMetres: { } within } || Math.Abs(diameter - nominal) <= within + Rounding.Metres)
        {
            return null;
        }

        return LotFit.Missed(
            unit =>
            {
                var (off, allowed) = unit.Apart(Math.Abs(diameter - nominal), within);
                return $"{What(ask, measurement)}, {Refusal.Sent(Sent(ask, measurement), unit.FixedText(diameter), unit)}, is {off} from the nominal "
                    + $"{unit.FixedText(nominal)}; within {allowed} was asked for";
            },
            Slip.Of(diameter, nominal, nominal - within, nominal + within), diameter, "the nominal",
            ("diameter_metres", LengthText.Metres(diameter)), ("nominal_metres", LengthText.Metres(nominal)), ("limit_metres", LengthText.Metres(within)));
    }

    private static ServedBody Answer(LocateAsk ask, FixtureState state, in Found found, DateTimeOffset at)
    {
        var (revision, measurement) = (state.InForce!, found.Measurement);
        var correction = found.Position.Correction;
        var q = correction.Pose.Orientation;
        var answer = new AnswerBody
        {
            Fixture = ask.Fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            Purpose = ask.Purpose.Name(),
            Nest = [ask.Column, ask.Row],
            Diameter = found.DiameterMetres,
            Length = found.LengthMetres,
            Measurement = measurement?.Serial,
            Age = measurement is null ? null : Math.Max(0, Math.Round((at - measurement.At).TotalSeconds, 6)),
            From = measurement?.From,
            Lot = measurement is null ? ask.Lot : measurement.Lot,
            LotTerms = found.Lot,
            Nominal = ask.NominalMetres,
            Within = ask.WithinMetres,
            Proving = ask.ProvingRequired ? ServedBody.ProvingRequired : null,
            First = ask.IsTrial || FirstMark.Is(ask, state, correction.ShiftBase),
            StandOff = Fit.StandOff(revision, ask.Purpose),
            Position = Vectors.Three(correction.Pose.PositionMetres),
            Orientation = [q.W, q.X, q.Y, q.Z],
            ShiftBase = Vectors.Three(correction.ShiftBase),
            ShiftOrigin = Vectors.Three(correction.ShiftOrigin),
            Uncertainty = found.Position.Sure is { } sure ? sure with { Normal = StockLength.Expanded(revision) } : null,
            Decimals = ask.Decimals,
            Unit = ask.Unit == ServedUnit.Metre ? null : ask.Unit.Name(),
            Load = ask.IsNext ? state.Load!.Serial : null,
            Left = ask.IsNext ? NestChoice.LeftAfter(ask, state, revision.Layout) : null,
            After = ask.After,
            Beside = found.Beside,
        };
        return ask.IsTrial ? new TrialBody(answer)
            : ask.IsGrid ? new GridBody(
                answer, revision.Layout.Columns * revision.Layout.Rows, GridPositions.DigestOf(revision, answer))
            : answer;
    }
}
