using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>Vectors in the form that entries have.</summary>
internal static class Vectors
{
    /// <summary>Its x, y and z.</summary>
    public static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];
}
