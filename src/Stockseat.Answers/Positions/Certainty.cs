using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Answers.Positions;

/// <summary>How uncertain an answer is, and whether that is good enough.</summary>
public static class Certainty
{
    /// <summary>
    /// How many readings are enough to tell a gauge's repeatability: our own choice. From about ten on, k = 2 covers nearly what it covers for many readings
    /// (JCGM 100:2008, G.6; clause from memory).
    /// </summary>
    public const int EnoughReadings = 10;

    /// <summary>How well a diameter is known; null when nothing is known, so that U is not known either.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="from">How it was measured; null when it was stated.</param>
    public static DiameterInputs? Diameter(Revision revision, DiameterFrom? from)
    {
        if (revision.Uncertainty is not { } known)
        {
            return null;
        }

        if (from?.Limits is not { LimitsOfError: { } limits } gauge)
        {
            // The mean is known only as well as the readings themselves show.
            return known.AskedDiameter is { } asked
                ? DiameterInputs.Stated(asked) with { Repeatability = from?.Deviation is { } spread ? Input.Mean(spread, from.Readings) : null }
                : null;
        }

        // Readings that were not judged, or that spread more than the gauge explains, as with an out-of-round lot: the larger of the stated repeatability and
        // the deviation of the readings counts. Two readings differ by √2 of their deviation.
        var explained = from.Agreement is { } agreement && !(Math.Sqrt(2) * from.Deviation > agreement + Rounding.Metres);
        var deviation = !explained
            ? (gauge.Repeatability > from.Deviation ? gauge.Repeatability : from.Deviation ?? gauge.Repeatability)
            : gauge.Repeatability ?? (from.Readings >= EnoughReadings ? from.Deviation : null);
        return new(
            Input.Limit(limits),
            gauge.Resolution is { } step ? Input.Step(step) : null,
            deviation is { } s ? Input.Mean(s, from.Readings) : null,
            null,
            from.Gauge is not null && from.Gauge == revision.MeasuredWith);
    }

    /// <summary>How well the diameter of a master is known; null when nothing is known.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="withinMetres">The limit of error of its diameter, in metres; null: as for a stated diameter.</param>
    internal static DiameterInputs? Master(Revision revision, double? withinMetres) => withinMetres is { } within && revision.Uncertainty is not null
        ? DiameterInputs.Stated(Input.Limit(within))
        : Diameter(revision, from: null);

    /// <summary>Judges the uncertainty of an answer against the limit of the revision.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="placed">Where the stock goes.</param>
    /// <param name="from">How the diameter was measured; null when it was stated.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    /// <param name="sure">The uncertainty; null when it is not known.</param>
    /// <returns>Null, or why it is refused.</returns>
    internal static Refusal? Judge(Revision revision, in SeatedStock placed, DiameterFrom? from, int column, int row, out AnswerUncertainty? sure)
    {
        sure = null;
        var limit = revision.Limits.UncertaintyMetres;
        if (Diameter(revision, from) is not { } diameter)
        {
            return limit is null ? null : NotKnown(revision, limit.Value);
        }

        var model = new SeatUncertainty(revision.Nest, placed.Seat, revision.Prepared.Taught, revision.Uncertainty!, diameter, placed.ShiftPlan);
        var (own, nest) = (model.At(revision.Layout.OffsetPlan(column, row)), (column, row));
        sure = new() { Along = own.Along, Across = own.Across };
        if (column == 0 && row == 0)
        {
            var (worst, there) = Worst(revision.Prepared.Corners, model);
            nest = worst.Larger > own.Larger ? there : nest;
            sure = sure with { AlongWorst = Math.Max(own.Along, worst.Along), AcrossWorst = Math.Max(own.Across, worst.Across) };
        }

        return sure.Largest > limit ? TooLarge(revision, model, nest, sure, limit.Value) : null;
    }

    /// <summary>The uncertainty that follows from that of a diameter and that of a revision.</summary>
    public static SeatUncertainty Model(Revision revision, in SeatedStock placed, in DiameterInputs diameter) =>
        new(revision.Nest, placed.Seat, revision.TaughtSeat, revision.Uncertainty!, diameter, placed.ShiftPlan);

    /// <summary>An uncertainty that grows with the distance is largest at an end of the layout.</summary>
    public static (ExpandedUncertainty Expanded, (int Column, int Row) Nest) Worst(Layout layout, SeatUncertainty model) =>
        Worst([.. layout.Corners().Select(c => new CornerNest(c.Column, c.Row, layout.OffsetPlan(c.Column, c.Row)))], model);

    private static (ExpandedUncertainty Expanded, (int Column, int Row) Nest) Worst(IReadOnlyList<CornerNest> corners, SeatUncertainty model)
    {
        var (worst, nest, larger) = (default(ExpandedUncertainty), (0, 0), 0.0);
        for (var i = 0; i < corners.Count; i++)
        {
            var corner = corners[i];
            var there = model.At(corner.Offset);
            worst = ExpandedUncertainty.Max(worst, there);
            (nest, larger) = there.Larger > larger ? ((corner.Column, corner.Row), there.Larger) : (nest, larger);
        }

        return (worst, nest);
    }

    private static Refusal NotKnown(Revision revision, double limit)
    {
        var why = revision.Uncertainty is null
            ? "the revision states no uncertainty"
            : "the diameter was not measured by a gauge with LimitsOfError, and uncertainty.askedDiameter is not stated";
        return Refusal.Of(
            Reason.UncertaintyAboveLimit,
            unit => $"the uncertainty of the answer is not known, but limits.uncertainty of revision {revision.Number} of {revision.Fixture} is "
                + $"{unit.FixedText(limit)}: {why}",
            ("limit_metres", LengthText.Metres(limit)));
    }

    private static Refusal TooLarge(Revision revision, SeatUncertainty model, (int Column, int Row) nest, AnswerUncertainty sure, double limit)
    {
        var (along, across) = (sure.AlongWorst ?? sure.Along, sure.AcrossWorst ?? sure.Across);
        var most = Budget.Of(model, revision.Layout.OffsetPlan(nest.Column, nest.Row)).Lines.MaxBy(l => along >= across ? l.ShareAlong : l.ShareAcross);
        return Refusal.Of(
            Reason.UncertaintyAboveLimit,
            unit =>
            {
                var (larger, allowed) = unit.Apart(Math.Max(along, across), limit);
                return string.Create(
                    CultureInfo.InvariantCulture,
                    $"U (k = {Propagation.CoverageFactor}) at nest {nest.Column},{nest.Row} of {revision.Fixture} would be "
                        + $"{(along >= across ? larger : unit.FixedText(along))} along and {(along >= across ? unit.FixedText(across) : larger)} across, most "
                        + $"of it from {most?.Component.Name()}; limits.uncertainty of revision {revision.Number} is {allowed}");
            },
            ("uncertainty_metres", LengthText.Metres(sure.Largest)), ("limit_metres", LengthText.Metres(limit)),
            ("largest_part", most?.Component.Name() ?? ""));
    }
}
