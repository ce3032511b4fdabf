namespace Stockseat.Answers.Tabulating;

/// <summary>What is special about the diameter of a row.</summary>
[Flags]
public enum RowMarks
{
    None = 0,

    /// <summary>The origin was taught with it.</summary>
    Taught = 1,

    /// <summary>The smallest diameter that is answered.</summary>
    Least = 2,

    /// <summary>The largest diameter that is answered.</summary>
    Greatest = 4,
}
