using System.CommandLine.Parsing;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Commands;

/// <summary>The step of a table: coarse enough for the printed decimals to hold each of its multiples exactly.</summary>
/// <param name="Metres">The step, in metres.</param>
/// <param name="Inches">Whether it was stated in inches.</param>
internal sealed record TableStep(double Metres, bool Inches)
{
    private const decimal Micrometre = 0.000_001m;

    /// <summary>A ten-thousandth of an inch.</summary>
    private const decimal InchStep = 0.000_002_54m;

    public static TableStep Usual { get; } = new(0.001, false);

    public static TableStep UsualInches { get; } = new(0.00127, true);

    public static TableStep? Parse(ArgumentResult result)
    {
        var text = result.Tokens[^1].Value;
        var metres = Common.Length(result, text);
        if (result.Errors.Any())
        {
            return null;
        }

        var inches = Quantity.UnitOf(text) == "in";
        if (metres > 1 || (decimal)metres % (inches ? InchStep : Micrometre) != 0)
        {
            result.AddError(
                $"'{text}' is not a step of a table; whole micrometres, or whole ten-thousandths of an inch, up to 1 m were expected, for example 0.5mm "
                    + "or 0.05in");
        }

        return new(metres, inches);
    }
}
