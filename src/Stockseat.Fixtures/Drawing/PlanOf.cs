using System.Text.Json;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Drawing;

/// <summary>The plan of a revision; what the revision does not carry itself is taken from its resolved content.</summary>
public static class PlanOf
{
    /// <param name="revision">The revision.</param>
    /// <param name="place">Whether for setting down, not for picking up.</param>
    public static Plan Revision(Revision revision, bool place)
    {
        using var content = JsonDocument.Parse(revision.Content);
        var root = content.RootElement;
        double? Limit(string name) => root.TryGetProperty("limits", out var limits) && limits.TryGetProperty(name, out var value) ? value.GetDouble() : null;
        var layout = revision.Layout;
        var (column, row) = (layout.OffsetPlan(1, 0), layout.OffsetPlan(0, 1));
        return new()
        {
            Nest = revision.Nest,
            Taught = revision.TaughtSeat,
            TaughtDiameterMetres = revision.TaughtDiameterMetres,
            StandOffMetres = place ? revision.StandOffPlaceMetres : revision.StandOffPickMetres,
            Columns = layout.Columns,
            Rows = layout.Rows,
            ColumnStep = new(column.U, column.V),
            RowStep = new(row.U, row.V),
            AlongWMetres = Math.Abs(column.W + row.W),
            Gripper = root.TryGetProperty("gripper", out var gripper) ? GripperOf(gripper) : null,
            StatedMetres = revision.Limits.DiameterMetres,
            GapMetres = Limit("gap"),
            ShiftMetres = revision.Limits.ShiftMetres,
            Sensitivity = revision.Limits.Sensitivity,
            HeldRadians = revision.Limits.HeldRadians,
            PayloadKilograms = Limit("payload"),
        };
    }

    private static Gripper GripperOf(JsonElement g)
    {
        double? Optional(string name) => g.TryGetProperty(name, out var value) ? value.GetDouble() : null;
        var stroke = g.GetProperty("stroke");
        return new()
        {
            Jaws = g.GetProperty("jaws").GetInt32(),
            JawWidthMetres = g.GetProperty("jawWidth").GetDouble(),
            JawThicknessMetres = g.GetProperty("jawThickness").GetDouble(),
            ClockingRadians = g.GetProperty("clocking").GetDouble(),
            OpenByMetres = Optional("openBy"),
            OpenToMetres = Optional("openTo"),
            StrokeMetres = (stroke[0].GetDouble(), stroke[1].GetDouble()),
        };
    }
}
