using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;

namespace Stockseat.Answers.Positions;

/// <summary>Whether a revision holds stock of a diameter, and where the centre of that stock goes.</summary>
public static class Fit
{
    /// <summary>Judges a diameter against the envelope.</summary>
    /// <param name="revision">The revision; prepared.</param>
    /// <param name="diameterMetres">The diameter in metres, above 0.</param>
    /// <param name="purpose">The purpose for which the stock is asked for.</param>
    /// <param name="placed">Where the stock goes.</param>
    /// <param name="sent">The diameter as it was sent; null: it was sent as a number of metres.</param>
    /// <returns>Null, or why it is refused.</returns>
    public static Refusal? Judge(Revision revision, double diameterMetres, Purpose purpose, out SeatedStock placed, string? sent = null)
    {
        placed = default;
        var envelopes = revision.Prepared.Envelopes;
        if ((purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is not { } envelope)
        {
            return Unusable(revision, purpose, envelopes.Violated!);
        }

        if (!envelope.Holds(diameterMetres))
        {
            return Outside(revision, diameterMetres, purpose, envelope, sent);
        }

        placed = Place(revision, diameterMetres, StandOff(revision, purpose))
            ?? throw new InvalidOperationException($"stock of {diameterMetres} m finds no seat within the envelope of revision {revision.Number} of "
                + $"{revision.Fixture}");
        return null;
    }

    /// <summary>
    /// Judges a diameter beside stock of another one: the envelope was judged with the same diameter in all nests. Null, or why it is refused.
    /// </summary>
    /// <param name="revision">The revision; prepared.</param>
    /// <param name="diameterMetres">The diameter, in metres.</param>
    /// <param name="purpose">The purpose for which the stock is asked for.</param>
    /// <param name="thereMetres">The largest diameter that stands in another nest, in metres.</param>
    public static Refusal? Beside(Revision revision, double diameterMetres, Purpose purpose, double thereMetres)
    {
        var plan = revision.PlanFor(purpose == Purpose.Place) with { NeighbourDiameterMetres = thereMetres };
        return Gaps.At(plan, diameterMetres).Where(g => g.Counts && g.Metres < (plan.GapMetres ?? 0) - Plan.Rounding).Take(1).ToList() is not [var tight]
            ? null
            : Refusal.Of(
                Reason.DiameterAboveEnvelope,
                unit => $"a diameter of {unit.FixedText(diameterMetres)} beside stock of {unit.FixedText(thereMetres)} would leave "
                    + $"{unit.FixedText(tight.Metres)} at the tightest place of {revision.Fixture}, for a {purpose.Name()}; limits.gap of revision "
                    + $"{revision.Number} is {unit.FixedText(plan.GapMetres ?? 0)}",
                ("diameter_metres", LengthText.Metres(diameterMetres)), ("beside_metres", LengthText.Metres(thereMetres)),
                ("gap_metres", LengthText.Metres(tight.Metres)));
    }

    /// <summary>The stand-off for a purpose, in metres.</summary>
    public static double StandOff(Revision revision, Purpose purpose) => purpose == Purpose.Pick ? revision.StandOffPickMetres : revision.StandOffPlaceMetres;

    /// <summary>Where stock goes; null when there is no seat.</summary>
    public static SeatedStock? Place(Revision revision, double diameterMetres, double standOffMetres) =>
        SeatSolver.TrySeat(revision.Nest, diameterMetres / 2, out var seat) == SeatFault.None
        && SeatSolver.TryClear(revision.Nest, diameterMetres / 2, standOffMetres, out var clear) == SeatFault.None
            ? new SeatedStock(seat, clear.Centre - revision.TaughtCentre)
            : null;

    /// <summary>Why a revision holds nothing at all, such as one that was adopted before its surroundings were judged; null when it holds something.</summary>
    public static Refusal? Unusable(Revision revision) =>
        revision.Prepared.Envelopes is { Pick: null, Place: null, Violated: { } violated } ? Unusable(revision, Purpose.Pick, violated) : null;

    private static Refusal Unusable(Revision revision, Purpose purpose, EnvelopeEnd violated) => Refusal.Of(
        Reason.CalibrationUnusable,
        unit => $"revision {revision.Number} of {revision.Fixture} does not hold its own taught diameter of {unit.FixedText(revision.TaughtDiameterMetres)} "
            + $"for a {purpose.Name()}{(purpose == Purpose.Place ? " among the largest stock of a pick" : "")}: "
            + $"{Binding.Said(violated, revision.Around.Obstacles, unit.OfBounds)}",
        ("constraint", Binding.Name(violated.Constraint)));

    private static Refusal Outside(Revision revision, double diameterMetres, Purpose purpose, Envelope envelope, string? sent)
    {
        var below = diameterMetres < envelope.Least.DiameterMetres;
        var end = below ? envelope.Least : envelope.Greatest;
        var reason = end.Constraint switch
        {
            Constraint.Shift => Reason.ShiftAboveLimit,
            Constraint.Payload => Reason.MassAboveLimit,
            _ => below ? Reason.DiameterBelowEnvelope : Reason.DiameterAboveEnvelope,
        };
        return Refusal.Of(
            reason,
            unit =>
            {
                var (asked, near) = unit.Apart(diameterMetres, end.DiameterMetres);
                var number = near[..^(unit.Symbol.Length + 1)];
                return $"a diameter of {Refusal.Sent(sent, asked, unit)} is too {(below ? "small" : "large")} for revision {revision.Number} of "
                    + $"{revision.Fixture}, which holds {(below ? number : unit.Fixed(envelope.Least.DiameterMetres))} to "
                    + $"{(below ? unit.FixedText(envelope.Greatest.DiameterMetres) : near)} for a {purpose.Name()}: "
                    + $"{Binding.Said(end, revision.Around.Obstacles, unit.OfBounds)}";
            },
            [
                ("diameter_metres", LengthText.Metres(diameterMetres)), ("constraint", Binding.Name(end.Constraint)),
                ("end_metres", LengthText.Metres(end.DiameterMetres)),
                .. Limit(end) is { } limit ? ((string, string)[])[("limit", limit)] : [],
            ]);
    }

    /// <summary>The number of a limit: lengths in metres, angles in degrees, mass in kilograms.</summary>
    private static string? Limit(EnvelopeEnd end) => end switch
    {
        { Limit: null } => null,
        { Constraint: Constraint.HeldAngle } => N(end.Limit.Value * 180 / Math.PI),
        { Constraint: Constraint.Sensitivity or Constraint.Payload } => N(end.Limit.Value),
        _ => LengthText.Metres(end.Limit.Value),
    };

    private static string N(double value) => Rounded.Short(value, 3);
}
