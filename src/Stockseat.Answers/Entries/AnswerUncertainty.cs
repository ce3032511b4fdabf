using System.Text.Json.Serialization;

namespace Stockseat.Answers.Entries;

/// <summary>How uncertain an answer is: expanded uncertainty U, k = 2, in metres, along the seat axis and across it.</summary>
public sealed record AnswerUncertainty
{
    /// <summary>At the nest that was asked for, along.</summary>
    public required double Along { get; init; }

    /// <summary>At the nest that was asked for, across.</summary>
    public required double Across { get; init; }

    /// <summary>The largest of all nests, along; only in an answer for the origin, from which all nests of the grid are taken.</summary>
    public double? AlongWorst { get; init; }

    /// <summary>The largest of all nests, across.</summary>
    public double? AcrossWorst { get; init; }

    /// <summary>Along the normal, by the stock's length alone; absent when the length does not count, or when nothing is known of its error.</summary>
    public double? Normal { get; init; }

    /// <summary>The value that is compared with the limit: for the origin that of the worst nest, else that of the nest asked for.</summary>
    [JsonIgnore]
    public double Largest => Math.Max(AlongWorst ?? Along, AcrossWorst ?? Across);
}
