namespace Stockseat.Answers.Stock;

/// <summary>The limits of a tolerance for one nominal diameter.</summary>
/// <param name="PlusMetres">How far above the nominal, in metres, from 0.</param>
/// <param name="MinusMetres">How far below the nominal, in metres; negative when even the least diameter lies above the nominal (k5 to k7).</param>
/// <param name="OutOfRoundMetres">How far the diameters of one section may differ, in metres; null when the table does not say.</param>
public readonly record struct ToleranceLimits(double PlusMetres, double MinusMetres, double? OutOfRoundMetres = null);
