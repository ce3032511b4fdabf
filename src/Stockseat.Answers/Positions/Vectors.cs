using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>Vectors as entries hold them.</summary>
internal static class Vectors
{
    /// <summary>Its x, y and z.</summary>
    public static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];
}
