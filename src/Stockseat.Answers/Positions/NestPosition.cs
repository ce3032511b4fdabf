using Stockseat.Answers.Entries;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>The position of a nest for stock of a diameter, and its uncertainty.</summary>
/// <param name="Correction">The corrected pose, and the shift.</param>
/// <param name="Sure">The uncertainty; null when it is not known.</param>
internal readonly record struct NestPosition(Correction Correction, AnswerUncertainty? Sure);
