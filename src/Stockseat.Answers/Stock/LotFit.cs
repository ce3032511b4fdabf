using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Stock;

/// <summary>Whether a diameter belongs to a lot.</summary>
internal static class LotFit
{
    /// <summary>The refusal of a lot that is neither in the configuration nor described.</summary>
    public static Refusal Unknown(string lot) => Refusal.Of(Reason.LotUnknown, $"there is no lot {lot}");

    /// <summary>Judges a diameter against a lot.</summary>
    /// <param name="lot">The lot's name.</param>
    /// <param name="terms">What is known of the lot; without limits every diameter may belong to it.</param>
    /// <param name="diameter">The diameter in metres.</param>
    /// <param name="what">The name of the diameter, such as "the stated diameter".</param>
    /// <param name="sent">The diameter as it was sent; null: it was sent as a number of metres, or it is a mean.</param>
    /// <returns>Null, or why it does not belong.</returns>
    public static Refusal? Judge(string lot, LotTerms terms, double diameter, string what, string? sent = null)
    {
        if (terms is not { Nominal: { } nominal, Least: { } least, Greatest: { } greatest }
            || (diameter >= least - Rounding.Metres && diameter <= greatest + Rounding.Metres))
        {
            return null;
        }

        string Said(LengthUnit unit)
        {
            var by = diameter < least ? $"{unit.Fine(least - diameter)} {unit} below" : $"{unit.Fine(diameter - greatest)} {unit} above";
            return $"{what}, {Refusal.Sent(sent, $"{unit.Fine(diameter)} {unit}", unit)}, is {by} lot {lot}, which has {unit.Fine(least)} to "
                + $"{unit.Fine(greatest)} {unit}{(terms.Tolerance is null ? "" : $" ({terms.Tolerance})")}";
        }

        return Missed(
            Said, Slip.Of(diameter, nominal, least, greatest), diameter, $"lot {lot}",
            ("diameter_metres", LengthText.FineMetres(diameter)), ("lot", lot), ("nominal_metres", LengthText.FineMetres(nominal)),
            ("least_metres", LengthText.FineMetres(least)), ("greatest_metres", LengthText.FineMetres(greatest)));
    }

    /// <summary>Judges a length against a lot. Null, or why it does not belong.</summary>
    public static Refusal? JudgeLength(string lot, LotTerms terms, double length)
    {
        if (terms is not { Length: { } nominal, LengthPlus: { } plus, LengthMinus: { } minus }
            || (length >= nominal - minus - Rounding.Metres && length <= nominal + plus + Rounding.Metres))
        {
            return null;
        }

        var (least, greatest) = (nominal - minus, nominal + plus);
        var slip = Slip.Of(length, nominal, least, greatest) is { Name: not "radius-for-diameter" } found ? found : null;
        return Refusal.Of(
            Reason.LengthOutsideLot,
            unit =>
            {
                var by = length < least ? $"{unit.Fine(least - length)} {unit} below" : $"{unit.Fine(length - greatest)} {unit} above";
                return $"the length, {unit.Fine(length)} {unit}, is {by} lot {lot}, which has {unit.Fine(least)} to {unit.Fine(greatest)} {unit}"
                    + (slip is null ? "" : $"; {slip.Text(length, $"lot {lot}", unit)}");
            },
            [
                ("length_metres", LengthText.FineMetres(length)), ("lot", lot), ("nominal_metres", LengthText.FineMetres(nominal)),
                ("least_metres", LengthText.FineMetres(least)), ("greatest_metres", LengthText.FineMetres(greatest)),
                .. slip is null ? [] : ((string, string)[])[("slip", slip.Name)],
            ]);
    }

    /// <summary>The refusal of a diameter that is not what was expected, with the slip that would explain it.</summary>
    public static Refusal Missed(
        Func<LengthUnit, string> said, Slip? slip, double diameter, string what, params ReadOnlySpan<(string Name, string Value)> limits) => slip is null
        ? Refusal.Of(Reason.MeasurementOutsideLot, said, [.. limits])
        : Refusal.Of(Reason.MeasurementOutsideLot, unit => $"{said(unit)}; {slip.Text(diameter, what, unit)}",
            [.. limits, ("slip", slip.Name), ("slip_metres", LengthText.FineMetres(diameter * slip.Factor))]);
}
