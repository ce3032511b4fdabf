using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The diameters that the revision allows for the purpose, and its limits.</summary>
internal static class EnvelopeSection
{
    public const string Title = "Envelope and limits";

    /// <summary>The section.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="purpose">The purpose: pick or place.</param>
    /// <param name="diameter">The diameter, in metres.</param>
    /// <param name="seat">Its seat; null when there is none.</param>
    /// <param name="shift">How long the shift is, in metres; null when there is none.</param>
    /// <param name="unit">The unit of the lengths that the words contain.</param>
    public static WorkingSection Of(Revision revision, Purpose purpose, double diameter, Seat? seat, double? shift, LengthUnit unit)
    {
        var steps = new Steps(Title);
        var envelopes = revision.Envelopes();
        if ((purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is { } envelope)
        {
            var obstacles = revision.Around.Obstacles;
            steps.Given(
                "D_least", $"the least diameter allowed for a {purpose.Name()}, found step by step to 1 um; what limits it: "
                    + $"{Wording.Of(envelope.Least, obstacles, unit)}", Metre, envelope.Least.DiameterMetres);
            steps.Given(
                "D_greatest", $"the greatest diameter allowed; what limits it: "
                    + $"{Wording.Of(envelope.Greatest, obstacles, unit)}", Metre, envelope.Greatest.DiameterMetres);
            steps.Compare("D", diameter, "D_least", envelope.Least.DiameterMetres, Metre, most: false);
            steps.Compare("D", diameter, "D_greatest", envelope.Greatest.DiameterMetres, Metre);
        }
        else
        {
            steps.Say(
                $"The revision does not allow its own taught diameter for a {purpose.Name()}: "
                    + $"{(envelopes.Violated is { } violated ? Binding.Said(violated, revision.Around.Obstacles, unit) : "the cause is not known")}.");
        }

        Stated(steps, revision, diameter, seat, shift);
        return steps.Section;
    }

    private static void Stated(Steps steps, Revision revision, double diameter, Seat? seat, double? shift)
    {
        var limits = revision.Limits;
        if (limits.DiameterMetres is { } range)
        {
            steps.Given("limits.diameter from", "the least diameter that the revision states", Metre, range.From);
            steps.Given("limits.diameter to", "the greatest diameter that the revision states", Metre, range.To);
        }

        Limit(steps, "limits.shift", "|shift|", shift, limits.ShiftMetres, Metre, most: true);
        Limit(steps, "limits.sensitivity", "|p|", seat?.Sensitivity, limits.Sensitivity, One, most: true);
        Limit(steps, "limits.heldAngle", "held", seat is { } s ? Degrees(s.HeldRadians) : null, Degrees(limits.HeldRadians), Degree, most: false);
        Limit(steps, "limits.payload", "mass", Mass(steps, revision, diameter), limits.PayloadKilograms, Kilogram, most: true);
    }

    private static double? Mass(Steps steps, Revision revision, double diameter) => revision.Around is { Density: { } density, StockLengthMetres: { } length }
        ? MassOf(steps, density, steps.Given("length", "the stock's length", Metre, length), diameter)
        : null;

    private static double MassOf(Steps steps, double density, double length, double diameter) =>
        steps.Make(
            "mass", $"the stock's mass, at {density.ToString("R", System.Globalization.CultureInfo.InvariantCulture)} kg/m^3", "density (pi / 4) D^2 length",
            Kilogram, density * Math.PI / 4 * diameter * diameter * length);

    private static void Limit(Steps steps, string name, string symbol, double? value, double? limit, string unit, bool most)
    {
        if (limit is not { } stated)
        {
            steps.Say($"{name} is not stated.");
            return;
        }

        steps.Given(name, most ? $"the most that {symbol} may be" : $"the least that {symbol} may be", unit, stated);
        if (value is { } known)
        {
            steps.Compare(symbol, known, name, stated, unit, most, Plan.Rounding);
        }
        else
        {
            steps.Say($"{symbol} is not known, so {name} can't be compared with anything.");
        }
    }
}
