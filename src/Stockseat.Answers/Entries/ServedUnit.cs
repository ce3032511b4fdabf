namespace Stockseat.Answers.Entries;

/// <summary>The unit in which lengths are served. The number of the member is the power of ten by which a length in metres is multiplied.</summary>
public enum ServedUnit
{
    /// <summary>m.</summary>
    Metre = 0,

    /// <summary>mm.</summary>
    Millimetre = 3,

    /// <summary>um.</summary>
    Micrometre = 6,
}
