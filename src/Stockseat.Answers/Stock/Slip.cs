using Stockseat.Answers.Entries;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Stock;

/// <summary>A slip of whoever stated or read a diameter, that would explain why it misses what was expected.</summary>
/// <param name="Name">Its name in the limits of a refusal.</param>
/// <param name="Factor">What the number is to be multiplied by.</param>
/// <param name="Said">How the number has to be taken.</param>
internal sealed record Slip(string Name, double Factor, string Said)
{
    /// <summary>How near to the nominal the corrected number has to come at least: the stock may be off as well.</summary>
    private const double Near = 0.01;

    private static readonly Slip[] All =
    [
        new("inch-for-millimetre", 25.4, "in inches"),
        new("millimetre-for-inch", 1 / 25.4, "in millimetres"),
        new("radius-for-diameter", 2, "as a radius, for a diameter of"),
        new("factor-of-ten", 10, "with its point one place to the right"),
        new("factor-of-ten", 0.1, "with its point one place to the left"),
    ];

    /// <summary>The slip that explains a diameter; null when none does.</summary>
    /// <param name="diameter">The diameter, outside the limits, in metres.</param>
    /// <param name="nominal">What was expected, in metres.</param>
    /// <param name="least">The least that belongs, in metres.</param>
    /// <param name="greatest">The greatest.</param>
    public static Slip? Of(double diameter, double nominal, double least, double greatest) => All
        .Where(s => diameter * s.Factor >= Math.Min(least, nominal * (1 - Near)) - Rounding.Metres
            && diameter * s.Factor <= Math.Max(greatest, nominal * (1 + Near)) + Rounding.Metres)
        .MinBy(s => Math.Abs(diameter * s.Factor - nominal));

    /// <summary>In words.</summary>
    /// <param name="diameter">The diameter that was said, in metres.</param>
    /// <param name="what">What it then fits.</param>
    /// <param name="unit">The unit of its length.</param>
    public string Text(double diameter, string what, LengthUnit unit) =>
        $"the number fits {what} when it is taken {Said}{(Name == "radius-for-diameter" ? "" : ":")} {unit.OfBounds.FixedText(diameter * Factor)}";
}
