namespace Stockseat.Answers.Stock;

/// <summary>The part of a lot's description that a fault is about.</summary>
public enum LotPart
{
    Nominal = 1,
    Tolerance = 2,
    Plus = 3,
    Minus = 4,
    OutOfRound = 5,
    Length = 6,
    LengthPlus = 7,
    LengthMinus = 8,
}
