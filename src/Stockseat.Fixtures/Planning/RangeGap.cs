using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Planning;

/// <summary>
/// The smallest gap over a range of diameters. A gap can dip between two samples, so a few samples only say where to begin. Then the envelope for a slightly
/// smaller wanted gap either covers the range, which proves it, or ends at a dip; in that case the gap whose envelope covers the range is found by bisection.
/// </summary>
internal static class RangeGap
{
    private const int Samples = 5;

    /// <summary>The gap is found to this, in metres.</summary>
    private const double Tolerance = 1e-5;

    /// <summary>The gripper without its stroke: the question here is how near parts come, not which diameters the gripper can reach.</summary>
    private static readonly (double, double) AnyStroke = (0, 1000);

    /// <summary>The smallest gap, except from open jaws to the stock between them: that gap is stated.</summary>
    /// <param name="plan">The plan, taught within the range; stock has a seat over the whole range.</param>
    /// <param name="range">From and to, in metres.</param>
    /// <returns>Null when there is nothing to meet.</returns>
    public static SmallestGap? Find(Plan plan, (double From, double To) range)
    {
        SmallestGap? sampled = null;
        for (var i = 0; i < Samples; i++)
        {
            var at = At(plan, i == Samples - 1 ? range.To : range.From + (i * (range.To - range.From) / (Samples - 1)));
            sampled = sampled is null || at?.Reading.Metres < sampled.Value.Reading.Metres ? at : sampled;
        }

        return sampled is { Reading.Metres: >= 0 } least ? Dip(plan, range, least) : sampled;
    }

    private static SmallestGap Dip(Plan plan, (double From, double To) range, SmallestGap least)
    {
        var bare = plan with
        {
            StatedMetres = range, Sensitivity = null, HeldRadians = 0, ShiftMetres = null, PayloadKilograms = null,
            Gripper = plan.Gripper is { } gripper ? gripper with { StrokeMetres = AnyStroke } : null,
        };
        double? covers = null;
        for (var step = 0.9 * Tolerance; least.Reading.Metres >= 0 && (covers is null || least.Reading.Metres - covers > Tolerance); step *= 2)
        {
            var wanted = covers is { } below ? (below + least.Reading.Metres) / 2 : least.Reading.Metres - step;
            if (Broken(bare with { GapMetres = wanted }) is { } broken && broken.Reading.Metres < least.Reading.Metres)
            {
                least = broken;
            }
            else
            {
                covers = wanted;
            }
        }

        return least;
    }

    /// <summary>A diameter at which a wanted gap is not kept; null when it is kept over the whole range.</summary>
    private static SmallestGap? Broken(Plan plan)
    {
        var envelope = EnvelopeSolver.Solve(plan, out var violated);
        EnvelopeEnd?[] ends = [violated, envelope?.Least, envelope?.Greatest];
        return ends.Where(e => e?.Gap is not null).Select(e => (SmallestGap?)new SmallestGap(e!.Gap!.Value, e.DiameterMetres))
            .MinBy(g => g!.Value.Reading.Metres);
    }

    private static SmallestGap? At(Plan plan, double diameterMetres)
    {
        foreach (var reading in Gaps.At(plan, diameterMetres))
        {
            if (!reading.IsOpening)
            {
                return new(reading, diameterMetres);
            }
        }

        return null;
    }
}
