using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>From a diameter to where a nest is: what is served, and what a printed table repeats.</summary>
internal static class Positioning
{
    /// <summary>Judges a diameter, then how sure the answer would be.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="diameterMetres">The diameter in metres, above 0.</param>
    /// <param name="purpose">What the stock is wanted for.</param>
    /// <param name="from">How the diameter was measured; null when it was stated.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    /// <param name="position">Where the nest is; in a refusal only how sure it would be, where that is known.</param>
    /// <param name="sent">The diameter as it was sent; null: it came as a number of metres.</param>
    /// <returns>Null, or why not.</returns>
    public static Refusal? Judge(Revision revision, double diameterMetres, Purpose purpose, DiameterFrom? from, int column, int row, out NestPosition position,
        string? sent = null)
    {
        position = default;
        if (Fit.Judge(revision, diameterMetres, purpose, out var placed, sent) is { } unfit)
        {
            return unfit;
        }

        var unsure = Certainty.Judge(revision, placed, from, column, row, out var sure);
        var offset = revision.Layout.OffsetBase(revision.Frame, column, row);
        position = new(unsure is null ? Correction.Of(revision.TaughtOrigin, revision.Frame, offset, placed.ShiftPlan) : default, sure);
        return unsure;
    }

    /// <summary>The refusal of a nest that the layout does not have; null when it has it.</summary>
    public static Refusal? NoNest(Revision revision, int column, int row) => revision.Layout.Has(column, row) ? null : Refusal.Of(
        Reason.NestUnknown,
        $"{revision.Fixture} has no nest {column},{row}: its layout has columns 0 to {revision.Layout.Columns - 1} and rows 0 to {revision.Layout.Rows - 1}",
        ("columns", Whole(revision.Layout.Columns)), ("rows", Whole(revision.Layout.Rows)));

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
