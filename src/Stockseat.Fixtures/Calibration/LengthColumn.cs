namespace Stockseat.Fixtures.Calibration;

/// <summary>A column of lengths.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Index">Its place among the columns, from 0.</param>
/// <param name="Unit">The unit of its numbers.</param>
internal readonly record struct LengthColumn(string Name, int Index, string Unit);
