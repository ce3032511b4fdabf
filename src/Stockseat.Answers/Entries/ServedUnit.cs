namespace Stockseat.Answers.Entries;

/// <summary>The unit in which lengths are served. Its number is the power of ten that a length in metres is multiplied by.</summary>
public enum ServedUnit
{
    /// <summary>m.</summary>
    Metre = 0,

    /// <summary>mm.</summary>
    Millimetre = 3,

    /// <summary>um.</summary>
    Micrometre = 6,
}
