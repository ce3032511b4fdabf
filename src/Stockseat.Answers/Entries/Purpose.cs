namespace Stockseat.Answers.Entries;

/// <summary>What the stock is wanted for.</summary>
public enum Purpose
{
    Pick = 1,
    Place = 2,
}
