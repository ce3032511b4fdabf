using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Frames;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads the axes of the plan: either stated, or as touched nests to which they are fitted.</summary>
internal static class FrameReader
{
    /// <summary>Reads the axes.</summary>
    /// <param name="section">The frame.</param>
    /// <param name="reference">The other values of the revision; null when they have faults of their own.</param>
    /// <param name="judge">Whether to judge how well the touched nests fit. A revision that was adopted once was judged then, by the rules of that day.</param>
    /// <param name="touched">The fit; null when the axes are stated.</param>
    public static PlanFrame? Read(Section section, TouchReference? reference, bool judge, out TouchedFrame? touched)
    {
        touched = null;
        if (!section.Has("touchedNests"))
        {
            return section.Has("aboutZ") ? ReadTurned(section) : ReadStated(section);
        }

        if (section.Has("seatAxis"))
        {
            section.Faults.Add(section.At("seatAxis"), "is stated, but follows from touchedNests; keep one of the two");
        }

        if (section.Has("aboutZ"))
        {
            section.Faults.Add(section.At("aboutZ"), "is stated beside touchedNests, which give the axes; keep one of them");
        }

        touched = ReadTouched(section, reference, judge);
        return touched?.Fit.Frame;
    }

    /// <summary>The turns that bring base's x, y and z to u, v and w.</summary>
    private static PlanFrame? ReadTurned(Section section)
    {
        foreach (var key in new[] { "seatAxis", "normal" }.Where(section.Has))
        {
            section.Faults.Add(section.At(key), "is stated beside aboutZ, thenY and thenX, which give the same axes; keep one of them");
        }

        var turned = OrientationReader.ReadZyx(section);
        section.Finish();
        return turned is { } baseFromPlan && PlanFrame.TryCreate(baseFromPlan.Apply(new(0, 1, 0)), baseFromPlan.Apply(new(0, 0, 1)), out var frame)
            ? frame
            : null;
    }

    private static PlanFrame? ReadStated(Section section)
    {
        var axis = section.Object("seatAxis") is { } a ? OrientationReader.ReadDirection(a) : null;
        var normal = section.Object("normal") is { } n ? OrientationReader.ReadDirection(n) : null;
        section.Finish();
        if (axis is not { } v || normal is not { } w)
        {
            return null;
        }

        if (PlanFrame.TryCreate(v, w, out var frame))
        {
            return frame;
        }

        section.Faults.Add(section.Path, "seatAxis and normal are not square to each other within 0.01 deg; correct one of them");
        return null;
    }

    private static TouchedFrame? ReadTouched(Section section, TouchReference? reference, bool judge)
    {
        var items = section.Objects("touchedNests", required: true, 2, 10_000);
        var read = items?.Select(ReadNest).ToArray();
        var normal = section.Object("normal") is { } n ? OrientationReader.ReadDirection(n) : null;
        var limits = new TouchLimits(
            section.Length("residualLimit", Range.Size, required: false) ?? TouchLimits.Usual.ResidualMetres,
            section.Length("originLimit", Range.Size, required: false) ?? TouchLimits.Usual.OriginMetres);
        section.Finish();
        if (items is null || read is null || normal is not { } w || reference is not { } against || read.Contains(null))
        {
            return null;
        }

        var nests = read.Select(r => r!.Value).ToArray();
        var sound = true;
        for (var i = 0; i < nests.Length; i++)
        {
            if (TouchedFrames.Unusable(against, nests, i) is { } unusable)
            {
                section.Faults.Add(items[i].Path, unusable);
                sound = false;
            }
        }

        if (!sound)
        {
            return null;
        }

        var frame = TouchedFrames.TryFit(against, nests, w, limits, out var fault);
        foreach (var said in frame is null ? [fault!] : judge ? TouchedFrames.Misfits(frame) : [])
        {
            section.Faults.Add(section.At("touchedNests"), said);
        }

        return frame;
    }

    private static TouchedNest? ReadNest(Section section)
    {
        var (column, row) = (section.Whole("column", 0, 9_999), section.Whole("row", 0, 9_999));
        var diameter = section.Length("diameter", Range.Size);
        var (x, y, z) = (section.Length("x", Range.Place), section.Length("y", Range.Place), section.Length("z", Range.Place));
        section.Finish();
        return column is { } c && row is { } r && diameter is { } d && x is { } a && y is { } b && z is { } e ? new TouchedNest(c, r, d, new(a, b, e)) : null;
    }
}
