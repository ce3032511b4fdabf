using System.Text.Json.Serialization;

namespace Stockseat.Answers.Entries;

/// <summary>How sure an answer is: expanded uncertainty U, k = 2, in metres, along the seat axis and across it.</summary>
public sealed record AnswerUncertainty
{
    /// <summary>At the nest asked, along.</summary>
    public required double Along { get; init; }

    /// <summary>At the nest asked, across.</summary>
    public required double Across { get; init; }

    /// <summary>The largest of all nests, along: in an answer for the origin, whose grid all nests are taken from.</summary>
    public double? AlongWorst { get; init; }

    /// <summary>The largest of all nests, across.</summary>
    public double? AcrossWorst { get; init; }

    /// <summary>What the limit is held against: for the origin the worst nest, else the nest asked.</summary>
    [JsonIgnore]
    public double Largest => Math.Max(AlongWorst ?? Along, AcrossWorst ?? Across);
}
