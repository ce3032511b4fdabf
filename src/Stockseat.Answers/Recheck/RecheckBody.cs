using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Recheck;

/// <summary>A master of known diameter was seated and found, and compared with where the revision in force predicts it.</summary>
public sealed record RecheckBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Recheck;

    public required string By { get; init; }

    public string? Note { get; init; }

    /// <summary>The master's diameter, in metres.</summary>
    public required double Master { get; init; }

    /// <summary>The limit of error of that diameter, in metres; absent when it was not stated.</summary>
    public double? MasterWithin { get; init; }

    /// <summary>The nest: column, row.</summary>
    public required int[] Nest { get; init; }

    /// <summary>Where its centre should be, in base: x, y, z.</summary>
    public required double[] Predicted { get; init; }

    /// <summary>Where it was found, in base: x, y, z.</summary>
    public required double[] Found { get; init; }

    /// <summary>Found minus predicted, in base: x, y, z.</summary>
    public required double[] MissBase { get; init; }

    /// <summary>The same in the axes of the plan.</summary>
    public required PlanMiss Miss { get; init; }

    /// <summary>The miss that the uncertainty of the revision explains: U, k = 2; absent when it is not known.</summary>
    public AnswerUncertainty? Expected { get; init; }

    /// <summary>The limit with which the length of the miss was compared, in metres; absent when the revision states none.</summary>
    public double? Limit { get; init; }

    /// <summary>
    /// Whether the miss is within the limit, or, when there is no limit, within the expected one; absent when there was nothing to compare it with.
    /// </summary>
    public bool? Passed { get; init; }

    /// <summary>Whether the configuration said that a miss refuses asks.</summary>
    public required bool RefuseAfterMiss { get; init; }

    /// <summary>Whether it refuses asks until another revision is adopted.</summary>
    [JsonIgnore]
    public bool Refuses => RefuseAfterMiss && Passed == false;

    /// <summary>The length of the miss, in metres.</summary>
    [JsonIgnore]
    public double Length => Math.Sqrt(MissBase.Sum(m => m * m));
}
