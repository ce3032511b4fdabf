namespace Stockseat.Seating.Frames;

/// <summary>
/// A rotation as a unit quaternion, scalar first. q and −q are the same rotation; W ≥ 0 is not enforced, the signs stay as given.
/// </summary>
public readonly record struct Rotation
{
    private Rotation(double w, double x, double y, double z)
    {
        W = w;
        X = x;
        Y = y;
        Z = z;
    }

    /// <summary>No rotation.</summary>
    public static Rotation Identity { get; } = new(1, 0, 0, 0);

    /// <summary>The scalar part.</summary>
    public double W { get; }

    /// <summary>The vector part along x.</summary>
    public double X { get; }

    /// <summary>The vector part along y.</summary>
    public double Y { get; }

    /// <summary>The vector part along z.</summary>
    public double Z { get; }

    /// <summary>From the four parts of a quaternion, scaled to unit length; a quaternion whose length is exactly 1 keeps every bit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The length is not a positive, finite number.</exception>
    public static Rotation FromQuaternion(double w, double x, double y, double z)
    {
        var norm = Math.Sqrt(w * w + x * x + y * y + z * z);
        if (!(norm > 0) || !double.IsFinite(norm))
        {
            throw new ArgumentOutOfRangeException(nameof(w), norm, "a quaternion needs a positive, finite length");
        }

        return Math.Abs(norm - 1) < 1e-15 ? new(w, x, y, z) : new(w / norm, x / norm, y / norm, z / norm);
    }

    /// <summary>A turn about an axis of any positive length, right-handed.</summary>
    /// <param name="axis">The axis; only its direction counts.</param>
    /// <param name="radians">The angle in radians.</param>
    public static Rotation FromAxisAngle(Vector3 axis, double radians)
    {
        var k = Math.Sin(radians / 2) / axis.Length;
        return FromQuaternion(Math.Cos(radians / 2), k * axis.X, k * axis.Y, k * axis.Z);
    }

    /// <summary>Intrinsic Z-Y-X: about z, then about the new y, then about the new x. The same as Rz·Ry·Rx.</summary>
    /// <param name="aboutZ">Radians about z.</param>
    /// <param name="thenY">Radians about the new y.</param>
    /// <param name="thenX">Radians about the new x.</param>
    public static Rotation FromIntrinsicZyx(double aboutZ, double thenY, double thenX)
    {
        var (sz, cz) = Math.SinCos(aboutZ / 2);
        var (sy, cy) = Math.SinCos(thenY / 2);
        var (sx, cx) = Math.SinCos(thenX / 2);
        return FromQuaternion(
            cz * cy * cx + sz * sy * sx,
            cz * cy * sx - sz * sy * cx,
            cz * sy * cx + sz * cy * sx,
            sz * cy * cx - cz * sy * sx);
    }

    /// <summary>
    /// From the axes of the rotated frame, the columns of its matrix, right-handed and orthonormal. The largest part of the quaternion is found by its root,
    /// and the other parts from it, so that none is a difference of nearly equal numbers (S. W. Shepperd, Journal of Guidance and Control 1, 1978; from
    /// memory).
    /// </summary>
    public static Rotation FromAxes(Vector3 x, Vector3 y, Vector3 z)
    {
        var (fourW, fourX, fourY, fourZ) =
            (1 + x.X + y.Y + z.Z, 1 + x.X - y.Y - z.Z, 1 - x.X + y.Y - z.Z, 1 - x.X - y.Y + z.Z);
        var most = Math.Max(Math.Max(fourW, fourX), Math.Max(fourY, fourZ));
        return most == fourW ? FromQuaternion(most, y.Z - z.Y, z.X - x.Z, x.Y - y.X)
            : most == fourX ? FromQuaternion(y.Z - z.Y, most, y.X + x.Y, z.X + x.Z)
            : most == fourY ? FromQuaternion(z.X - x.Z, y.X + x.Y, most, z.Y + y.Z)
            : FromQuaternion(x.Y - y.X, z.X + x.Z, z.Y + y.Z, most);
    }

    /// <summary>Turns a vector from the rotated frame into the frame that the rotation is stated in.</summary>
    public Vector3 Apply(Vector3 v)
    {
        var q = new Vector3(X, Y, Z);
        var t = 2 * Vector3.Cross(q, v);
        return v + W * t + Vector3.Cross(q, t);
    }

    /// <summary>The inverse of <see cref="Apply"/>: turns a vector of the stated frame into the axes of the rotated frame.</summary>
    public Vector3 ApplyInverse(Vector3 v) => new Rotation(W, -X, -Y, -Z).Apply(v);
}
