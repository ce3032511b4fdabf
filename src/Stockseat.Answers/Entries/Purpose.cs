namespace Stockseat.Answers.Entries;

/// <summary>The purpose for which the stock is asked for.</summary>
public enum Purpose
{
    Pick = 1,
    Place = 2,
}
