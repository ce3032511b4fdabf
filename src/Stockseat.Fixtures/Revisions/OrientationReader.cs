using System.Globalization;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Frames;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads an orientation in one of its three forms, and directions.</summary>
internal static class OrientationReader
{
    /// <summary>How far the length of a typed quaternion may be from 1. Our own choice, without a source.</summary>
    private const double UnitTolerance = 1e-4;

    private static readonly Range Part = new(-1.001, 1.001);

    public static Rotation? Read(Section section)
    {
        var rotation = section.Has("axis") ? ReadAxisAngle(section)
            : section.Has("aboutZ") ? ReadZyx(section)
            : ReadQuaternion(section);
        section.Finish();
        return rotation;
    }

    public static Vector3? ReadDirection(Section section)
    {
        var range = new Range(-1e6, 1e6);
        var (x, y, z) = (section.Number("x", range), section.Number("y", range), section.Number("z", range));
        section.Finish();
        if (x is not { } a || y is not { } b || z is not { } c)
        {
            return null;
        }

        var direction = new Vector3(a, b, c);
        if (direction.Length > 1e-9)
        {
            return direction;
        }

        section.Faults.Add(section.Path, "has the length 0; a direction was expected");
        return null;
    }

    private static Rotation? ReadQuaternion(Section section)
    {
        var (w, x, y, z) = (section.Number("w", Part), section.Number("x", Part), section.Number("y", Part), section.Number("z", Part));
        if (w is not { } a || x is not { } b || y is not { } c || z is not { } d)
        {
            return null;
        }

        var norm = Math.Sqrt(a * a + b * b + c * c + d * d);
        if (Math.Abs(norm - 1) <= UnitTolerance)
        {
            return Rotation.FromQuaternion(a, b, c, d);
        }

        section.Faults.Add(section.Path, string.Create(
            CultureInfo.InvariantCulture, $"has length {norm:0.######}; a unit quaternion (1 within {UnitTolerance}) was expected"));
        return null;
    }

    private static Rotation? ReadAxisAngle(Section section)
    {
        var axis = section.Object("axis") is { } a ? ReadDirection(a) : null;
        var angle = section.Angle("angle", Range.Turn);
        return axis is { } direction && angle is { } radians ? Rotation.FromAxisAngle(direction, radians) : null;
    }

    /// <summary>Three turns, each about the axes as already turned; more keys may stand beside them.</summary>
    public static Rotation? ReadZyx(Section section)
    {
        var (z, y, x) = (section.Angle("aboutZ", Range.Turn), section.Angle("thenY", Range.Turn), section.Angle("thenX", Range.Turn));
        return z is { } a && y is { } b && x is { } c ? Rotation.FromIntrinsicZyx(a, b, c) : null;
    }
}
