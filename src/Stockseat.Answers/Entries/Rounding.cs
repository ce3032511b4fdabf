namespace Stockseat.Answers.Entries;

/// <summary>How near to each other two computed numbers have to be to count as the same.</summary>
public static class Rounding
{
    /// <summary>A picometre: when two lengths differ by exactly the limit, the computed difference may be rounded to either side of it.</summary>
    public const double Metres = 1e-12;
}
