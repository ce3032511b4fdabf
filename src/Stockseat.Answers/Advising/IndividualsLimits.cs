namespace Stockseat.Answers.Advising;

/// <summary>
/// Control limits of single values, from the moving range of two neighbours (Shewhart's chart of individuals; ISO 7870-2, from memory):
/// mean ± 3 · MR̄/d₂, with d₂ = 1.128 for two values, so mean ± 2.66 times the mean moving range.
/// </summary>
/// <param name="Mean">The mean of the values: the centre line.</param>
/// <param name="Lower">The lower control limit.</param>
/// <param name="Upper">The upper control limit.</param>
/// <param name="MeanMovingRange">The mean of the absolute differences of neighbours.</param>
public readonly record struct IndividualsLimits(double Mean, double Lower, double Upper, double MeanMovingRange)
{
    /// <summary>How many values are needed before there are limits. Eight is our own choice, without a source: with fewer the limits say little.</summary>
    public const int Enough = 8;

    /// <summary>The mean range of two values of a normal distribution, in standard deviations: 2/√π, rounded as in the usual tables.</summary>
    private const double D2 = 1.128;

    /// <summary>Values that are all the same may differ by a picometre of rounding; in metres.</summary>
    private const double Rounding = 1e-12;

    /// <summary>The limits for values in the order of time; null when there are fewer than <see cref="Enough"/>.</summary>
    public static IndividualsLimits? Of(IReadOnlyList<double> values)
    {
        if (values.Count < Enough)
        {
            return null;
        }

        var (mean, range) = (values.Average(), values.Zip(values.Skip(1), (a, b) => Math.Abs(b - a)).Average());
        return new(mean, mean - (3 * range / D2), mean + (3 * range / D2), range);
    }

    /// <summary>Whether a value lies beyond a limit.</summary>
    public bool Beyond(double value) => value < Lower - Rounding || value > Upper + Rounding;
}
