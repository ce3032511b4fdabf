using System.Text.Json.Serialization;

namespace Stockseat.Answers.Entries;

/// <summary>What is known of a lot of stock. Values that were not stated are absent: a lot may be a name only.</summary>
public sealed record LotTerms
{
    /// <summary>The nominal diameter, in metres.</summary>
    public double? Nominal { get; init; }

    /// <summary>The tolerance as it was stated, such as h11; absent when plus and minus were stated.</summary>
    public string? Tolerance { get; init; }

    /// <summary>How far above the nominal a diameter may lie, in metres, from 0.</summary>
    public double? Plus { get; init; }

    /// <summary>How far below the nominal it may lie, in metres; negative when even the least diameter lies above the nominal (k5 to k7).</summary>
    public double? Minus { get; init; }

    /// <summary>How far the diameters of one section may differ, in metres.</summary>
    public double? OutOfRound { get; init; }

    /// <summary>The nominal length, in metres.</summary>
    public double? Length { get; init; }

    /// <summary>How far above the nominal length a length may lie, in metres, from 0.</summary>
    public double? LengthPlus { get; init; }

    /// <summary>How far below it, in metres, from 0.</summary>
    public double? LengthMinus { get; init; }

    /// <summary>The least diameter of the lot, in metres; null when it is not known.</summary>
    [JsonIgnore]
    public double? Least => Nominal - Minus;

    /// <summary>The greatest diameter of the lot, in metres; null when it is not known.</summary>
    [JsonIgnore]
    public double? Greatest => Nominal + Plus;
}
