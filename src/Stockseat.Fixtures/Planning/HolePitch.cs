namespace Stockseat.Fixtures.Planning;

/// <summary>A row of holes that pins can stand in: the spacings are its multiples.</summary>
/// <param name="Metres">From hole to hole, in metres, above 0.</param>
/// <param name="Least">The smallest multiple, 1 or more.</param>
/// <param name="Most">The largest multiple; null: the largest that can seat the largest stock of the range.</param>
public readonly record struct HolePitch(double Metres, int Least = 1, int? Most = null);
