using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Seats;

namespace Stockseat.Answers.Deciding;

/// <summary>Whether a revision holds stock of a diameter, and where its centre goes.</summary>
public static class Fit
{
    /// <summary>Judges a diameter against the seat and the stated limits.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="diameterMetres">The diameter in metres, above 0.</param>
    /// <param name="standOffMetres">The stand-off in metres.</param>
    /// <param name="placed">Where it goes.</param>
    /// <returns>Null, or why not.</returns>
    public static Refusal? Judge(Revision revision, double diameterMetres, double standOffMetres, out Placement placed)
    {
        placed = default;
        var limits = revision.Limits;
        if (limits.DiameterMetres is { } range && (diameterMetres < range.From || diameterMetres > range.To))
        {
            var below = diameterMetres < range.From;
            return Outside(revision, diameterMetres, below, "stated-range", $"limits.diameter is {M(range.From)} to {M(range.To)} m", M(below ? range.From : range.To));
        }

        var fault = SeatSolver.TrySeat(revision.Nest, diameterMetres / 2, out var seat);
        var smaller = diameterMetres < revision.TaughtDiameterMetres;
        if (fault != SeatFault.None)
        {
            var (constraint, said) = Said(fault);
            return Outside(revision, diameterMetres, smaller, constraint, said, null);
        }

        if (seat.Sensitivity > limits.Sensitivity)
        {
            return Outside(revision, diameterMetres, smaller, "sensitivity", $"its sensitivity would be {N(seat.Sensitivity)}, the limit is {N(limits.Sensitivity.Value)}", N(limits.Sensitivity.Value));
        }

        if (seat.HeldRadians < limits.HeldRadians)
        {
            return Outside(revision, diameterMetres, smaller, "held-angle", $"the seat axis would be {Deg(seat.HeldRadians)} deg from the edge of the contacts' cone, the limit is {Deg(limits.HeldRadians)} deg", Deg(limits.HeldRadians));
        }

        if (SeatSolver.TryClear(revision.Nest, diameterMetres / 2, standOffMetres, out var clear) != SeatFault.None)
        {
            return Outside(revision, diameterMetres, smaller, "stand-off", $"no place clears both locators by {M(standOffMetres)} m", M(standOffMetres));
        }

        placed = new(seat, clear.Centre - revision.TaughtCentre);
        var shift = placed.ShiftPlan.Length;
        return shift > limits.ShiftMetres ? ShiftTooLong(revision, diameterMetres, shift, limits.ShiftMetres.Value) : null;
    }

    /// <summary>Metres with six decimals.</summary>
    internal static string M(double metres) => FixedPoint.Text(metres);

    private static Refusal ShiftTooLong(Revision revision, double diameterMetres, double shift, double limit) => Refusal.Of(
        Reason.ShiftAboveLimit,
        $"a diameter of {M(diameterMetres)} m would shift {revision.Fixture} by {M(shift)} m, limits.shift of revision {revision.Number} is {M(limit)} m",
        ("shift_metres", M(shift)), ("limit_metres", M(limit)));

    private static Refusal Outside(Revision revision, double diameterMetres, bool below, string constraint, string said, string? limit)
    {
        var what = $"a diameter of {M(diameterMetres)} m is too {(below ? "small" : "large")} for revision {revision.Number} of {revision.Fixture}: {said}";
        var reason = below ? Reason.DiameterBelowEnvelope : Reason.DiameterAboveEnvelope;
        return limit is null
            ? Refusal.Of(reason, what, ("diameter_metres", M(diameterMetres)), ("constraint", constraint))
            : Refusal.Of(reason, what, ("diameter_metres", M(diameterMetres)), ("constraint", constraint), ("limit", limit));
    }

    private static (string Constraint, string Said) Said(SeatFault fault) => fault switch
    {
        SeatFault.NoContact => ("no-seat", "it drops between the locators"),
        SeatFault.NotHeld => ("not-held", "it touches both locators but would roll off"),
        _ => ("face-extent", "it would touch beyond the end of a face"),
    };

    private static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static string Deg(double radians) => (radians * 180 / Math.PI).ToString("0.##", CultureInfo.InvariantCulture);
}
