using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads what is around the stock: the gripper, obstacles, and the stock itself.</summary>
internal static class SurroundingsReader
{
    private const int MostObstacles = 200;

    public static Surroundings Read(Section root, double? locatorTop)
    {
        var gripper = root.Object("gripper", required: false) is { } g ? ReadGripper(g) : null;
        var obstacles = root.Objects("obstacles", required: false, 1, MostObstacles)?.Select(ReadObstacle).OfType<Obstacle>().ToArray() ?? [];
        var stock = root.Object("stock", required: false);
        var density = stock?.Density("density", new Range(0, 30_000, OpenFrom: true), required: false);
        var length = stock?.Length("length", Range.Size, required: false);
        stock?.Finish();
        return new(gripper, obstacles, density, length, locatorTop);
    }

    private static Gripper? ReadGripper(Section section)
    {
        var jaws = section.Whole("jaws", 1, 8);
        var width = section.Length("jawWidth", Range.Size);
        var thickness = section.Length("jawThickness", Range.Size);
        var clocking = section.Angle("clocking", Range.Turn);
        var turn = section.Angle("turn", Range.Turn, required: false);
        if (section.Has("openBy") == section.Has("openTo"))
        {
            section.Faults.Add(section.Path, "needs openBy or openTo, and not both");
        }

        var (by, to) = (section.Length("openBy", Range.Size, required: false), section.Length("openTo", Range.Size, required: false));
        var stroke = section.LengthPair("stroke", Range.Gap);
        var (palm, palmHeight) = (section.Length("palm", Range.Size, required: false), section.Length("palmHeight", Range.Gap, required: false));
        var tip = section.Length("jawTipHeight", Range.Gap, required: false);
        section.Finish();
        if (jaws is null || width is null || thickness is null || clocking is null || stroke is null || by is null == to is null)
        {
            return null;
        }

        return new()
        {
            Jaws = jaws.Value,
            JawWidthMetres = width.Value,
            JawThicknessMetres = thickness.Value,
            ClockingRadians = clocking.Value + (turn ?? 0),
            OpenByMetres = by,
            OpenToMetres = to,
            StrokeMetres = stroke.Value,
            PalmDiameterMetres = palm,
            PalmHeightMetres = palmHeight,
            JawTipHeightMetres = tip,
        };
    }

    private static Obstacle? ReadObstacle(Section section)
    {
        var name = section.Text("name", longest: 40);
        var at = section.Object("at") is { } a ? ReadPlace(a) : null;
        var to = section.Object("to", required: false) is { } t ? ReadPlace(t) : at;
        var diameter = section.Length("diameter", Range.Size);
        var top = section.Length("top", Range.Gap, required: false);
        section.Finish();
        return name is not null && at is { } from && to is { } end && diameter is { } d ? new(name, from, end, d, top) : null;
    }

    private static PlanVector? ReadPlace(Section section)
    {
        var (u, v) = (section.Length("u", Range.Place), section.Length("v", Range.Place));
        section.Finish();
        return u is { } a && v is { } b ? new PlanVector(a, b) : null;
    }
}
