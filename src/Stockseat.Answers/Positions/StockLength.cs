using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Positions;

/// <summary>What the length of the stock does to a position.</summary>
public static class StockLength
{
    /// <summary>Judges a length, for a revision whose position follows it.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="lengthMetres">The length, in metres; null: it is not known.</param>
    /// <param name="alongNormal">The shift along the normal, in metres; null: the length does not count.</param>
    /// <returns>Null, or why it is refused.</returns>
    public static Refusal? Judge(Revision revision, double? lengthMetres, out double? alongNormal)
    {
        alongNormal = null;
        if (revision.Grip is not { } grip)
        {
            return null;
        }

        if (lengthMetres is not { } length)
        {
            return Refusal.Of(
                Reason.LengthMissing,
                $"revision {revision.Number} of {revision.Fixture} corrects the position by the stock's length, and no length was measured or stated");
        }

        var shift = grip.Shift(length);
        if (revision.Limits.LengthMetres is { } limit && Math.Abs(shift) > limit + Rounding.Metres)
        {
            return Refusal.Of(
                Reason.LengthAboveLimit,
                unit =>
                {
                    var (larger, allowed) = unit.Apart(Math.Abs(shift), limit);
                    return $"a length of {unit.FixedText(length)} would move the position {larger} along the normal, from the taught length of "
                        + $"{unit.FixedText(grip.TaughtLengthMetres)}; limits.length of revision {revision.Number} of {revision.Fixture} is {allowed}";
                },
                ("length_metres", LengthText.Metres(length)), ("shift_metres", LengthText.Metres(shift)), ("limit_metres", LengthText.Metres(limit)));
        }

        alongNormal = shift;
        return null;
    }

    /// <summary>
    /// The expanded uncertainty, k = 2, of that shift: the length's limit of error counts as rectangular. Null: not known, or the length does not count.
    /// </summary>
    public static double? Expanded(Revision revision) => revision.Grip is { WithinMetres: { } within } grip ? 2 * grip.Share * within / Math.Sqrt(3) : null;
}
