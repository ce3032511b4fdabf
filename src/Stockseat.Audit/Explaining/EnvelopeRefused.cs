using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>
/// A diameter outside the envelope: compared with the end that it is beyond; and what limits it there, compared with its limit where that can be computed at
/// the diameter itself.
/// </summary>
internal static class EnvelopeRefused
{
    /// <summary>Adds the comparisons.</summary>
    public static void Add(Steps steps, Located located, Seat? seat, PlanVector? shift)
    {
        if (located is not { Revision: { } revision, Diameter: { } diameter })
        {
            steps.Say("The revision, or the diameter, is not known here.");
            return;
        }

        var envelopes = revision.Envelopes();
        if ((located.Purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is not { } envelope)
        {
            steps.Say("Computed now, the revision allows no diameter at all for this purpose.");
            return;
        }

        var below = diameter < envelope.Least.DiameterMetres;
        var end = below ? envelope.Least : envelope.Greatest;
        if (envelope.Holds(diameter))
        {
            steps.Say("Computed now, the diameter is allowed; the verdict is taken as recorded.");
        }

        steps.Given("D", "the diameter", Metre, diameter);
        var symbol = below ? "D_least" : "D_greatest";
        steps.Given(
            symbol, $"the {(below ? "least" : "greatest")} diameter allowed; beyond it: "
                + $"{Binding.Said(end, revision.Around.Obstacles, located.Unit)}", Metre,
            end.DiameterMetres);
        steps.Compare("D", diameter, symbol, end.DiameterMetres, Metre, most: !below);
        At(steps, revision, end, diameter, seat, shift);
    }

    /// <summary>What limits the diameter at an end, or at the taught diameter, with its limit.</summary>
    public static void Binds(Steps steps, EnvelopeEnd end, Revision revision, LengthUnit told)
    {
        steps.Say($"What is violated: {Binding.Said(end, revision.Around.Obstacles, told)}.");
        if (end is { Gap: { } gap, Limit: { } wanted })
        {
            steps.Given("gap", $"{Wording.Of(gap, revision.Around.Obstacles)}; below 0 means that they overlap", Metre, gap.Metres);
            steps.Given("limits.gap", "the least that the gap may be", Metre, wanted);
            steps.Compare("gap", gap.Metres, "limits.gap", wanted, Metre, most: false, Plan.Rounding);
        }
        else if (end.Limit is { } limit && end.Constraint != Constraint.Reach)
        {
            var (unit, value) = end.Constraint switch
            {
                Constraint.HeldAngle =>
                    (Degree, Degrees(limit)), Constraint.Sensitivity => (One, limit), Constraint.Payload => (Kilogram, limit), _ => (Metre, limit),
            };
            steps.Given("limit", "the limit that applies", unit, value);
        }
    }

    /// <summary>The value at the diameter that was asked for, compared with the limit.</summary>
    private static void At(Steps steps, Revision revision, EnvelopeEnd end, double diameter, Seat? seat, PlanVector? shift)
    {
        var (symbol, text, value, unit, most) = end.Constraint switch
        {
            Constraint.Shift => ("|shift|", "how long the shift would be", shift?.Length, Metre, true),
            Constraint.Sensitivity => ("|p|", "the sensitivity there", seat?.Sensitivity, One, true),
            Constraint.HeldAngle => ("held", "the held angle there", seat is { } s ? Degrees(s.HeldRadians) : null, Degree, false),
            Constraint.Payload => ("mass", "the stock's mass, density (pi / 4) D^2 length", Mass(revision, diameter), Kilogram, true),
            _ => ("", "", (double?)null, One, true),
        };
        if (value is { } known && end.Limit is { } limit)
        {
            var allowed = end.Constraint == Constraint.HeldAngle ? Degrees(limit) : limit;
            steps.Given(symbol, text, unit, known);
            steps.Given("limit", "the limit that applies", unit, allowed);
            steps.Compare(symbol, known, "limit", allowed, unit, most, Plan.Rounding);
        }
    }

    private static double? Mass(Revision revision, double diameter) =>
        revision.Around is { Density: { } density, StockLengthMetres: { } length } ? density * Math.PI / 4 * diameter * diameter * length : null;
}
