using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Advising;

/// <summary>One direction in which the nests repeat, in base.</summary>
/// <param name="Count">How many nests.</param>
/// <param name="PitchMetres">From nest to nest, in metres, above 0.</param>
/// <param name="Direction">From a nest to the next one, in base, of length 1.</param>
public readonly record struct StatedDirection(int Count, double PitchMetres, Vector3 Direction);
