using System.Globalization;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tabulating;

/// <summary>
/// The diameters of a table: the whole multiples of a step, the taught diameter, and both ends of the range. They are computed in decimals, so that the
/// diameter of a row is exactly what an ask with the printed text means.
/// </summary>
/// <param name="FromMetres">The smallest, in metres; null: the smallest that is answered.</param>
/// <param name="ToMetres">The largest, in metres; null: the largest that is answered.</param>
/// <param name="StepMetres">The step, in metres, 1 µm or more.</param>
public sealed record TableSteps(double? FromMetres = null, double? ToMetres = null, double StepMetres = 0.001)
{
    /// <summary>The most rows of a table: more would be more pages than anybody hangs up.</summary>
    public const int MostRows = 2000;

    private const decimal Micrometre = 0.000_001m;

    /// <summary>The unit in which a fault names them.</summary>
    public LengthUnit Shown { get; init; } = LengthUnit.Millimetre;

    /// <summary>
    /// The smallest and the largest diameter of the table: within the range that is answered, rounded inwards to 1 µm. When there is no such diameter, the
    /// first is larger than the second.
    /// </summary>
    public (double Least, double Greatest) Ends(Envelope envelope) =>
        ((double)Up(Math.Max(FromMetres ?? 0, envelope.Least.DiameterMetres)),
            (double)Down(Math.Min(ToMetres ?? envelope.Greatest.DiameterMetres, envelope.Greatest.DiameterMetres)));

    /// <summary>The diameters in metres, in order; null when there would be too many.</summary>
    /// <param name="envelope">The range that is answered.</param>
    /// <param name="taughtMetres">The taught diameter, in metres.</param>
    /// <param name="fault">Why there are none.</param>
    public IReadOnlyList<double>? Diameters(Envelope envelope, double taughtMetres, out string fault)
    {
        fault = "";
        var (least, greatest) = Ends(envelope);
        if (least > greatest)
        {
            return [];
        }

        var step = (decimal)StepMetres;
        var (first, last) = (Math.Ceiling((decimal)least / step), Math.Floor((decimal)greatest / step));
        if (last - first > MostRows - 4)
        {
            fault = string.Create(CultureInfo.InvariantCulture, $"{Shown.Text(least)} to {Shown.Text(greatest)} in steps of "
                + $"{Shown.Text(StepMetres)} makes {Math.Round(last - first) + 1} rows; at most {MostRows} are made: take a larger step, or a shorter range");
            return null;
        }

        var multiples = Enumerable.Range(0, Math.Max(0, (int)(last - first) + 1)).Select(i => (double)((first + i) * step));
        double[] taught = taughtMetres >= least && taughtMetres <= greatest ? [taughtMetres] : [];
        return [.. multiples.Append(least).Append(greatest).Concat(taught).Distinct().Order()];
    }

    /// <summary>
    /// A double has 15 reliable decimal digits, and the decimal keeps those; the last bits of the double may lie on the other side of a whole µm.
    /// </summary>
    private static decimal Up(double metres)
    {
        var whole = Math.Ceiling((decimal)metres / Micrometre) * Micrometre;
        return (double)whole < metres ? whole + Micrometre : whole;
    }

    private static decimal Down(double metres)
    {
        var whole = Math.Floor((decimal)metres / Micrometre) * Micrometre;
        return (double)whole > metres ? whole - Micrometre : whole;
    }
}
