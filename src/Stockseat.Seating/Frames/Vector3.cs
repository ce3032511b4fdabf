namespace Stockseat.Seating.Frames;

/// <summary>Three coordinates in a named frame, double precision. The name of the variable says frame and unit.</summary>
/// <param name="X">Along the frame's x axis.</param>
/// <param name="Y">Along the frame's y axis.</param>
/// <param name="Z">Along the frame's z axis.</param>
public readonly record struct Vector3(double X, double Y, double Z)
{
    /// <summary>Its length.</summary>
    public double Length => Math.Sqrt(X * X + Y * Y + Z * Z);

    public static Vector3 operator +(Vector3 a, Vector3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vector3 operator -(Vector3 a, Vector3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vector3 operator *(double k, Vector3 a) => new(k * a.X, k * a.Y, k * a.Z);

    /// <summary>The scalar product a·b.</summary>
    public static double Dot(Vector3 a, Vector3 b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;

    /// <summary>The vector product a×b, right-handed.</summary>
    public static Vector3 Cross(Vector3 a, Vector3 b) =>
        new(a.Y * b.Z - a.Z * b.Y, a.Z * b.X - a.X * b.Z, a.X * b.Y - a.Y * b.X);
}
