namespace Stockseat.Answers.Entries;

/// <summary>How near two numbers that were computed are the same.</summary>
public static class Rounding
{
    /// <summary>A picometre: the difference of two lengths that are exactly as far apart as the limit rounds either way.</summary>
    public const double Metres = 1e-12;
}
