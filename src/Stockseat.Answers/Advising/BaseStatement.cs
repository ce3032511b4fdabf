using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Advising;

/// <summary>
/// What a revision means in the robot's base coordinate system. Each figure comes from positions that the code for answers gives, so it shows what the
/// robot would be told, whatever was meant by the file.
/// </summary>
public sealed record BaseStatement
{
    /// <summary>The diameters around the taught one from which the movement is taken, in metres.</summary>
    private const double Step = 0.001;

    /// <summary>How far the centre moves in base for each unit of diameter more, at the taught diameter: the same in mm per mm.</summary>
    public required Vector3 PerDiameter { get; init; }

    /// <summary>Nest 0,0 and the far nests, each with stock of the taught diameter and without stand-off.</summary>
    public required IReadOnlyList<StatedNest> Nests { get; init; }

    /// <summary>Which way columns run; null when there is one column.</summary>
    public StatedDirection? Columns { get; init; }

    /// <summary>Which way rows run; null when there is one row.</summary>
    public StatedDirection? Rows { get; init; }

    /// <summary>The angle between the tool's z axis and the way into the plan, from 0 to π.</summary>
    public required double ToolFromIntoPlanRadians { get; init; }

    /// <summary>How far the seat axis rises above level, from −π/2 to π/2.</summary>
    public required double SeatAxisRiseRadians { get; init; }

    /// <summary>How far the normal rises above level: near π/2 for stock that stands, near 0 for stock that lies.</summary>
    public required double NormalRiseRadians { get; init; }

    /// <summary>How far the place where the stock is held moves in base for each unit of length more; null: it does not follow the length.</summary>
    public Vector3? PerLength { get; init; }

    /// <summary>The length that it was taught with, in metres; null: it does not follow the length.</summary>
    public double? TaughtLengthMetres { get; init; }

    /// <summary>The statement of a revision.</summary>
    public static BaseStatement Of(Revision revision)
    {
        var (layout, frame) = (revision.Layout, revision.Frame);
        var taught = revision.TaughtDiameterMetres;
        Vector3 At(int column, int row, double diameter)
        {
            var shift = Fit.Place(revision, diameter, standOffMetres: 0)?.ShiftPlan ?? default;
            return Correction.Of(revision.TaughtOrigin, frame, layout.OffsetBase(frame, column, row), shift).Pose.PositionMetres;
        }

        var origin = At(0, 0, taught);
        return new()
        {
            PerDiameter = 1 / Step * (At(0, 0, taught + (Step / 2)) - At(0, 0, taught - (Step / 2))),
            Nests = [new(0, 0, origin), .. layout.Corners().Select(c => new StatedNest(c.Column, c.Row, At(c.Column, c.Row, taught)))],
            Columns = Direction(layout.Columns, layout.Columns > 1 ? At(1, 0, taught) - origin : default),
            Rows = Direction(layout.Rows, layout.Rows > 1 ? At(0, 1, taught) - origin : default),
            ToolFromIntoPlanRadians = Angle(revision.TaughtOrigin.Orientation.Apply(new(0, 0, 1)), -1 * frame.W),
            SeatAxisRiseRadians = (Math.PI / 2) - Angle(frame.V, revision.Up),
            PerLength = revision.Grip is { } grip ? grip.Share * frame.W : null,
            TaughtLengthMetres = revision.Grip?.TaughtLengthMetres,
            NormalRiseRadians = (Math.PI / 2) - Angle(frame.W, revision.Up),
        };
    }

    private static StatedDirection? Direction(int count, Vector3 step) => count > 1 ? new(count, step.Length, 1 / step.Length * step) : null;

    /// <summary>By the tangent of the half angle: exact also near 0 and π (W. Kahan; from memory).</summary>
    private static double Angle(Vector3 a, Vector3 b)
    {
        var (x, y) = (1 / a.Length * a, 1 / b.Length * b);
        return 2 * Math.Atan2((x - y).Length, (x + y).Length);
    }
}
