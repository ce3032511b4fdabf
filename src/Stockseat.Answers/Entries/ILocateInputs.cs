namespace Stockseat.Answers.Entries;

/// <summary>The inputs of a locate, as an entry holds them, whether it was answered or refused. A value that the entry does not hold is null.</summary>
public interface ILocateInputs
{
    string? Purpose { get; }

    /// <summary>The nest: column, row.</summary>
    int[]? Nest { get; }

    /// <summary>The diameter, stated or measured, in metres.</summary>
    double? Diameter { get; }

    /// <summary>The length of the stock, stated or measured, in metres; null where it does not count.</summary>
    double? Length { get; }

    /// <summary>The serial of its measurement; null when the diameter was stated.</summary>
    long? Measurement { get; }

    DiameterFrom? From { get; }

    string? Lot { get; }

    LotTerms? LotTerms { get; }

    /// <summary>The nominal diameter that the diameter had to be near, in metres.</summary>
    double? Nominal { get; }

    /// <summary>How near it had to be, in metres.</summary>
    double? Within { get; }
}
