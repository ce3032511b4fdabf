using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Revisions;

/// <summary>
/// The diameters that a revision holds. A finished piece is set down among raw ones, so a place is judged among the largest stock that a pick holds.
/// </summary>
/// <param name="Pick">For a pick; null when the taught diameter itself does not hold.</param>
/// <param name="Place">For a place; null when the taught diameter itself does not hold.</param>
/// <param name="Violated">The constraint that does not hold at the taught diameter; null when all hold.</param>
/// <param name="Held">The diameters for a pick, as if no range of diameters were stated.</param>
public sealed record RevisionEnvelopes(Envelope? Pick, Envelope? Place, EnvelopeEnd? Violated, Envelope? Held)
{
    /// <summary>Solves the envelopes.</summary>
    public static RevisionEnvelopes Of(Revision revision)
    {
        var plan = PlanFor(revision, place: false);
        var held = EnvelopeSolver.Solve(plan with { StatedMetres = null }, out var violated);
        if (held is null)
        {
            return new(null, null, violated, null);
        }

        var pick = plan.StatedMetres is null ? held : EnvelopeSolver.Solve(plan, out violated);
        var place = EnvelopeSolver.Solve(
            PlanFor(revision, place: true) with { NeighbourDiameterMetres = (pick ?? held).Greatest.DiameterMetres }, out var placeViolated);
        return new(pick, place, violated ?? placeViolated, held);
    }

    /// <summary>The plan of a revision, with everything that limits a diameter.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="place">Whether stock is set down; otherwise it is picked.</param>
    internal static Plan PlanFor(Revision revision, bool place)
    {
        var (layout, limits, around) = (revision.Layout, revision.Limits, revision.Around);
        return new()
        {
            Nest = revision.Nest,
            Taught = revision.TaughtSeat,
            TaughtDiameterMetres = revision.TaughtDiameterMetres,
            StandOffMetres = place ? revision.StandOffPlaceMetres : revision.StandOffPickMetres,
            Columns = layout.Columns,
            Rows = layout.Rows,
            ColumnStep = Step(layout.First),
            RowStep = Step(layout.Second),
            AlongWMetres = new[] { layout.First, layout.Second }.FirstOrDefault(r => r?.Direction == 'w')?.PitchMetres ?? 0,
            LocatorTopMetres = around.LocatorTopMetres,
            Gripper = around.Gripper,
            Obstacles = around.Obstacles,
            StockLengthMetres = around.StockLengthMetres,
            Density = around.Density,
            StatedMetres = limits.DiameterMetres,
            GapMetres = limits.GapMetres,
            ShiftMetres = limits.ShiftMetres,
            Sensitivity = limits.Sensitivity,
            HeldRadians = limits.HeldRadians,
            PayloadKilograms = limits.PayloadKilograms,
        };
    }

    private static PlanVector Step(LayoutRow? row) => row?.Direction switch
    {
        'u' => new(row.Value.PitchMetres, 0),
        'v' => new(0, row.Value.PitchMetres),
        _ => default,
    };
}
