using Stockseat.Answers.Entries;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Stock;

/// <summary>A slip in stating or reading a diameter that would explain why it is not what was expected.</summary>
/// <param name="Name">Its name in the limits of a refusal.</param>
/// <param name="Factor">The factor that corrects the number.</param>
/// <param name="Said">How the number has to be read to be right.</param>
internal sealed record Slip(string Name, double Factor, string Said)
{
    /// <summary>
    /// How near to the nominal the corrected number has to come, as a part of the nominal: the stock itself differs too. Our own choice, without a source.
    /// </summary>
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
    /// <param name="diameter">The diameter, which is outside the limits, in metres.</param>
    /// <param name="nominal">The expected diameter, in metres.</param>
    /// <param name="least">The least diameter that belongs, in metres.</param>
    /// <param name="greatest">The greatest diameter that belongs, in metres.</param>
    public static Slip? Of(double diameter, double nominal, double least, double greatest) => All
        .Where(s => diameter * s.Factor >= Math.Min(least, nominal * (1 - Near)) - Rounding.Metres
            && diameter * s.Factor <= Math.Max(greatest, nominal * (1 + Near)) + Rounding.Metres)
        .MinBy(s => Math.Abs(diameter * s.Factor - nominal));

    /// <summary>The slip in words.</summary>
    /// <param name="diameter">The diameter as it was stated, in metres.</param>
    /// <param name="what">What the corrected diameter fits.</param>
    /// <param name="unit">The unit of the length in the text.</param>
    public string Text(double diameter, string what, LengthUnit unit) =>
        $"the number fits {what} when it is taken {Said}{(Name == "radius-for-diameter" ? "" : ":")} {unit.OfBounds.FixedText(diameter * Factor)}";
}
