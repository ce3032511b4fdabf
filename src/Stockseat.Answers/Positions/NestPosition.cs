using Stockseat.Answers.Entries;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Positions;

/// <summary>Where a nest is for stock of a diameter, and how sure that is.</summary>
/// <param name="Correction">The corrected pose, and the shift.</param>
/// <param name="Sure">How sure it is; null when that is not known.</param>
internal readonly record struct NestPosition(Correction Correction, AnswerUncertainty? Sure);
