namespace Stockseat.Answers.Entries;

/// <summary>What an entry says of a locate's inputs, whether it was answered or refused. What it does not say is null.</summary>
public interface ILocateInputs
{
    string? Purpose { get; }

    /// <summary>The nest: column, row.</summary>
    int[]? Nest { get; }

    /// <summary>The diameter stated or measured, in metres.</summary>
    double? Diameter { get; }

    /// <summary>The measurement that it comes from; null when it was stated.</summary>
    long? Measurement { get; }

    DiameterFrom? From { get; }

    string? Lot { get; }

    LotTerms? LotTerms { get; }

    /// <summary>The nominal diameter that the one used had to be near, in metres.</summary>
    double? Nominal { get; }

    /// <summary>How near, in metres.</summary>
    double? Within { get; }
}
