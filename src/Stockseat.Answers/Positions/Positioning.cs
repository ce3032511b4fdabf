using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>From a diameter to the position of a nest: for answers, and for printed tables of offsets.</summary>
internal static class Positioning
{
    /// <summary>Judges a diameter, and then the uncertainty that the answer would have.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="diameterMetres">The diameter in metres, above 0.</param>
    /// <param name="purpose">The purpose for which the stock is asked for.</param>
    /// <param name="from">How the diameter was measured; null when it was stated.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    /// <param name="position">The position of the nest; in a refusal only the uncertainty that it would have, where that is known.</param>
    /// <param name="sent">The diameter as it was sent; null: it was sent as a number of metres.</param>
    /// <param name="alongNormal">The shift along the normal by the stock's length, in metres; null: the length does not count.</param>
    /// <returns>Null, or why it is refused.</returns>
    public static Refusal? Judge(Revision revision, double diameterMetres, Purpose purpose, DiameterFrom? from, int column, int row, out NestPosition position,
        string? sent = null, double? alongNormal = null)
    {
        position = default;
        if (Fit.Judge(revision, diameterMetres, purpose, out var placed, sent) is { } unfit)
        {
            return unfit;
        }

        var unsure = Certainty.Judge(revision, placed, from, column, row, out var sure);
        var offset = revision.Layout.OffsetBase(revision.Frame, column, row);
        position = new(unsure is null ? Correction.Of(revision.TaughtOrigin, revision.Frame, offset, placed.ShiftPlan, alongNormal) : default, sure);
        return unsure;
    }

    /// <summary>The refusal of a nest that the layout does not have; null when it has it.</summary>
    public static Refusal? NoNest(Revision revision, int column, int row) => revision.Layout.Has(column, row) ? null : Refusal.Of(
        Reason.NestUnknown,
        $"{revision.Fixture} has no nest {column},{row}: its layout has columns 0 to {revision.Layout.Columns - 1} and rows 0 to {revision.Layout.Rows - 1}",
        ("columns", Whole(revision.Layout.Columns)), ("rows", Whole(revision.Layout.Rows)));

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
