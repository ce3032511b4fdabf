namespace Stockseat.Answers.Stock;

/// <summary>What of a lot's description a fault is about.</summary>
public enum LotPart
{
    Nominal = 1,
    Tolerance = 2,
    Plus = 3,
    Minus = 4,
    OutOfRound = 5,
}
