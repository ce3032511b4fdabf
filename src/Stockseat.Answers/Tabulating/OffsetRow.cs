using Stockseat.Answers.Entries;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tabulating;

/// <summary>One row of a table of offsets: the answer for one diameter.</summary>
/// <param name="DiameterMetres">The diameter, in metres.</param>
/// <param name="Marks">What is special about this diameter.</param>
/// <param name="ShiftBase">The shift in the base coordinate system, in metres.</param>
/// <param name="PositionMetres">The corrected position of the nest in base, in metres.</param>
/// <param name="Sure">The uncertainty; null when it is not known.</param>
public sealed record OffsetRow(double DiameterMetres, RowMarks Marks, Vector3 ShiftBase, Vector3 PositionMetres, AnswerUncertainty? Sure);
